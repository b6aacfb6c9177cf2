using BenchmarkDotNet.Running;
using RollRide.Benchmarks;

Accuracy.Write(Console.Out);
RandomHourBenchmarks.WriteErrors(Console.Out);
BenchmarkSwitcher.FromAssembly(typeof(SolverBenchmarks).Assembly).Run(args);
