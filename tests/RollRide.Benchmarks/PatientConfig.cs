using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;

namespace RollRide.Benchmarks;

/// <summary>Waits long enough for the harness's own build on a busy machine; how long to measure is left to the command line.</summary>
internal class PatientBuild : ManualConfig
{
    public PatientBuild() => WithBuildTimeout(TimeSpan.FromMinutes(20));
}

/// <summary>Waits likewise, and measures fifteen times.</summary>
internal sealed class PatientConfig : PatientBuild
{
    public PatientConfig() => AddJob(Job.Default.WithWarmupCount(2).WithIterationCount(15));
}
