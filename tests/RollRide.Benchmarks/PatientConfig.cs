using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;

namespace RollRide.Benchmarks;

/// <summary>Waits long enough for the harness's own build on a busy machine.</summary>
internal sealed class PatientConfig : ManualConfig
{
    public PatientConfig()
    {
        AddJob(Job.Default.WithWarmupCount(2).WithIterationCount(15));
        WithBuildTimeout(TimeSpan.FromMinutes(20));
    }
}
