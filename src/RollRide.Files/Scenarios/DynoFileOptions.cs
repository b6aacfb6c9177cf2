using RollRide.Damping;

namespace RollRide.Scenarios;

/// <summary>What the user says about dynamometer files, besides what the files themselves declare.</summary>
public sealed record DynoFileOptions
{
    /// <summary>The direction in which the file counts velocity and displacement positive; null: the file declares it.</summary>
    public DampingDirection? VelocityPositive { get; init; }

    /// <summary>The direction whose resisting force the file counts positive; null: the file declares it.</summary>
    public DampingDirection? ForcePositive { get; init; }

    /// <summary>The separator of fields; null: the file declares it, or a comma.</summary>
    public char? Separator { get; init; }

    /// <summary>Whether numbers have a decimal comma; null: the file declares it, or a point.</summary>
    public bool? DecimalComma { get; init; }
}
