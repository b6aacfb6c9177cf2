using RollRide.Damping;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>What the dampers of a layout give at one velocity amplitude, of unlike ones the mean. A scale on their curves leaves the friction alone.</summary>
/// <param name="Coefficient">The equivalent coefficient, N·s/m.</param>
/// <param name="Friction">The part of it that friction gives, N·s/m.</param>
internal readonly record struct DamperSetting(double Coefficient, double Friction)
{
    /// <summary>The setting of a layout's dampers.</summary>
    /// <param name="layout">The layout, its dampers in the state that is meant.</param>
    /// <param name="velocity">Velocity amplitude, m/s.</param>
    /// <param name="includeFriction">Whether friction counts.</param>
    public static DamperSetting Of(DamperLayout layout, double velocity, bool includeFriction)
    {
        var coefficient = layout.EquivalentCoefficient(velocity, DampingDirection.Both, includeFriction);
        return new(coefficient, coefficient - layout.EquivalentCoefficient(velocity));
    }

    /// <summary>The scale on the curves that gives a coefficient.</summary>
    public double ScaleOf(double coefficient) => Math.Max(0, coefficient - Friction) / (Coefficient - Friction);

    /// <summary>The coefficient with a scale on the curves, N·s/m.</summary>
    public double At(double scale) => Friction + (scale * (Coefficient - Friction));

    /// <summary>
    /// A window in coefficients that the same dampers have in another state: an edge at so many times the curve here is at as many times the curve there.
    /// </summary>
    /// <param name="window">The window in coefficients of this setting.</param>
    /// <param name="other">The setting in the other state.</param>
    public SettingWindow WindowIn(SettingWindow window, DamperSetting other)
    {
        var here = this;
        return here == other ? window : window.With(edge => other.At(here.ScaleOf(edge)));
    }
}
