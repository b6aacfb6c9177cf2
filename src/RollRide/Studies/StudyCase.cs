using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Everything a study works on: one vehicle, the layouts to choose from, and what they are driven through.</summary>
public sealed record StudyCase
{
    /// <summary>Where the case comes from.</summary>
    public required Provenance Provenance { get; init; }

    /// <summary>The vehicle without dampers.</summary>
    public required HalfCar Vehicle { get; init; }

    /// <summary>The layouts, in the order in which they are shown.</summary>
    public required ImmutableArray<DamperLayout> Layouts { get; init; }

    /// <summary>The manoeuvre.</summary>
    public required Manoeuvre Manoeuvre { get; init; }

    /// <summary>Settings of the integrator.</summary>
    public required IntegratorOptions Solver { get; init; }

    /// <summary>Settings of the linear analysis.</summary>
    public required AnalysisSettings Analysis { get; init; }

    /// <summary>The damping ratios asked for; null if the case asks for none.</summary>
    public DampingTargets? Targets { get; init; }

    /// <summary>Rate at which time histories are kept, Hz.</summary>
    public double HistoryRate { get; init; } = 1000;
}

/// <summary>Settings of the linear analysis.</summary>
/// <param name="ReferenceVelocity">Damper velocity amplitude for which a single damping ratio is given, m/s.</param>
/// <param name="Velocities">Damper velocity amplitudes of the table, m/s, ascending.</param>
/// <param name="IncludeFriction">Whether friction counts in the equivalent coefficient.</param>
public sealed record AnalysisSettings(double ReferenceVelocity, ImmutableArray<double> Velocities, bool IncludeFriction);

/// <summary>What a result was made from, so that every number can be traced.</summary>
/// <param name="Scenario">Name of the scenario.</param>
/// <param name="File">Name of the scenario file, without its folder.</param>
/// <param name="Sha256">SHA-256 over the scenario file and every file it names, in hexadecimal digits.</param>
/// <param name="Version">Version of the program.</param>
public sealed record Provenance(string Scenario, string File, string Sha256, string Version)
{
    /// <summary>Version of this program.</summary>
    public static string ProgramVersion { get; } = typeof(Provenance).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
