using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>The last stage of a valve: from a speed on, its shims are fully open and the force grows on along another slope.</summary>
/// <param name="Velocity">Speed at which the valve blows off, m/s, above the knee velocity.</param>
/// <param name="Slope">Slope beyond it, N·s/m, at least 0.</param>
public sealed record BlowOff(double Velocity, double Slope)
{
    /// <summary>Speed at which the valve blows off, m/s.</summary>
    public double Velocity { get; init => field = Require.Positive(value, "m/s", nameof(Velocity)); } = Require.Positive(Velocity, "m/s");

    /// <summary>Slope beyond the blow-off, N·s/m.</summary>
    public double Slope { get; init => field = Require.NotNegative(value, "N·s/m", nameof(Slope)); } = Require.NotNegative(Slope, "N·s/m");
}
