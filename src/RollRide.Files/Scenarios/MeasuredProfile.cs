using System.Collections.Immutable;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>A measured road as it stands in its file.</summary>
/// <param name="Profile">The profile; if one track was measured, it is in both.</param>
/// <param name="Start">Distance of the first sample, m.</param>
/// <param name="IsOneTrack">Whether one track was measured: then the coherence of left and right is not known.</param>
/// <param name="Warnings">What is possible but not plausible about it.</param>
public sealed record MeasuredProfile(RoadProfile Profile, double Start, bool IsOneTrack, ImmutableArray<string> Warnings);
