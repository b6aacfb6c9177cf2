using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>The linear view of a case: modes over damper velocity, measured decays and frequency responses of all layouts.</summary>
public static class ModesStudy
{
    /// <summary>Examines all layouts, side by side on the machine's cores.</summary>
    /// <param name="study">The case.</param>
    /// <param name="cancellation">Stops the study.</param>
    /// <exception cref="StudyException">A body is unstable, or a decay diverges.</exception>
    public static ModesResult Run(StudyCase study, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new ModesResult(study, SideBySide.Run(study.Layouts.Length, i => OfLayout(study, study.Layouts[i], cancellation), cancellation: cancellation));
    }

    private static LayoutModes OfLayout(StudyCase study, DamperLayout layout, CancellationToken cancellation)
    {
        try
        {
            var car = study.Assemble(layout);
            var settings = study.Analysis;
            var at = ModeSweep.Of(car, [settings.ReferenceVelocity], settings.IncludeFriction);
            return new LayoutModes
            {
                Car = car,
                Reference = at.Both[0].Modes,
                ReferenceCompression = at.Compression[0].Modes,
                ReferenceRebound = at.Rebound[0].Modes,
                Sweep = ModeSweep.Of(car, ModeSweep.DefaultVelocities, settings.IncludeFriction),
                OnVehicle = car.Second is null ? null : LayoutOnVehicle.Of(study, car, at.Both[0].Modes, cancellation),
                Frames = car.Second is null ? null : FrameSweep.Of(car, settings.ReferenceVelocity, settings.IncludeFriction, cancellation),
                Decays = [.. Enum.GetValues<ModeName>().Select(name => FreeDecay.Of(car.Alone(), name, settings.ReferenceVelocity, settings.IncludeFriction, study.Solver, cancellation))],
                Response = FrequencyResponse.Of(
                    LinearHalfCar.AtRest(car), study.Vehicle.HalfTrack, at.Both[0].Modes.Coefficient, FrequencyResponse.LogarithmicFrequencies()),
            };
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException or Numerics.IntegrationException or Mounting.UnreachableTravelException)
        {
            throw new StudyException(layout.Name, e, study.Load?.Name);
        }
    }
}

/// <summary>The linear view of a case.</summary>
/// <param name="Study">The case.</param>
/// <param name="Layouts">One per layout, in the order of the case.</param>
public sealed record ModesResult(StudyCase Study, ImmutableArray<LayoutModes> Layouts);

/// <summary>The linear view of one layout.</summary>
public sealed record LayoutModes
{
    /// <summary>Vehicle and layout.</summary>
    public required AssembledHalfCar Car { get; init; }

    /// <summary>The modes at the reference damper velocity, compression and rebound together.</summary>
    public required ModeSet Reference { get; init; }

    /// <summary>The same as if the damper always worked as in compression.</summary>
    public required ModeSet ReferenceCompression { get; init; }

    /// <summary>The same as if the damper always worked as in rebound.</summary>
    public required ModeSet ReferenceRebound { get; init; }

    /// <summary>The modes over damper velocity.</summary>
    public required ModeSweep Sweep { get; init; }

    /// <summary>The decays measured after a release at the reference velocity, in the order of <see cref="ModeName"/>.</summary>
    public required ImmutableArray<FreeDecay> Decays { get; init; }

    /// <summary>The response at the reference velocity's coefficient.</summary>
    public required FrequencyResponse Response { get; init; }

    /// <summary>What the layout is on the whole vehicle; null where the axle is looked at by itself.</summary>
    public LayoutOnVehicle? OnVehicle { get; init; }

    /// <summary>The vehicle's modes over the stiffness of its frame; null where the axle is looked at by itself.</summary>
    public FrameSweep? Frames { get; init; }

    /// <summary>Name of the layout.</summary>
    public string Name => Car.Layout.Name;
}
