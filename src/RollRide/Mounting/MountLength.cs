using System.Globalization;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>Checks that an element's two mounts are two points.</summary>
internal static class MountLength
{
    /// <summary>Refuses mounts closer together than a shortest length, m.</summary>
    public static void Require(double length, double shortest, string name)
    {
        if (length < shortest)
        {
            throw new ArgumentException(
                string.Create(CultureInfo.InvariantCulture, $"The two mounts of an element must lie at least {Unit.Millimetre.Show(shortest)} apart; they lie {Unit.Millimetre.Show(length):0.###} apart{(length > 0 ? "; positions are in mm: are these metres?" : ".")}"),
                name);
        }
    }
}
