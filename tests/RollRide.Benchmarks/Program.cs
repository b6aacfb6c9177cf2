using BenchmarkDotNet.Running;
using RollRide.Benchmarks;

if (args is ["pairs", ..])
{
    Pairs.Write(args[1..], Console.Out);
    return;
}

if (args is ["beside", ..])
{
    Pairs.WriteBeside(args[1..], Console.Out);
    return;
}

if (args is ["shipped-sweep", ..])
{
    ShippedSweep.Write(args[1..], Console.Out);
    return;
}

if (args is ["laws"])
{
    LawBenchmarks.Write(Console.Out);
    return;
}

if (args is ["live", ..])
{
    await LivePageBenchmark.Write(args[1..], Console.Out);
    return;
}

if (args is ["starts", ..])
{
    CommandStarts.Write(args[1..], Console.Out);
    return;
}

Accuracy.Write(Console.Out);
if (args is ["errors"])
    return;
RandomHourBenchmarks.WriteErrors(Console.Out);
BenchmarkSwitcher.FromAssembly(typeof(SolverBenchmarks).Assembly).Run(args);
