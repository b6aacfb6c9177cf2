using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Packaging;

namespace RollRide.Studies;

/// <summary>Says where a layout's mounts would have to go sideways to open its closed window, as mounts that can be built and written into a scenario.</summary>
internal sealed class MovedMounts
{
    private readonly LiveAxleMountFitting _mounts;
    private readonly Func<double, bool> _opens;

    /// <summary>Looks for a place of a damper.</summary>
    /// <param name="mounts">Its mounts as written.</param>
    /// <param name="opens">Whether the window is open with the axle end at a lateral position, m.</param>
    public MovedMounts(LiveAxleMountFitting mounts, Func<double, bool> opens) => (_mounts, _opens) = (mounts, opens);

    /// <summary>The place to move to.</summary>
    /// <param name="edge">The nearest axle end at which the window opens, m, with no regard to what is in the way.</param>
    /// <param name="present">The present position as an upright damper of the same effect, m.</param>
    /// <param name="rooms">The room around this layout in each load state, in all of which it must fit; empty where it is not known.</param>
    /// <param name="cancellation">Stops the search.</param>
    public WindowRemedy To(double edge, double present, IReadOnlyList<PackagingSpace> rooms, CancellationToken cancellation)
    {
        double from = _mounts.AxleEnd.Y;
        bool outward = edge > from;

        // A whole millimetre is easier to build; at a narrow place a tenth must do.
        double? whole = Round(edge, Unit.Millimetre.PerSi, outward), tenth = Round(edge, 10 * Unit.Millimetre.PerSi, outward);
        if (rooms.Count == 0)
            return Moved(MountFit.NotKnown, whole ?? tenth ?? edge);
        var bands = rooms.Select(room => BandSearch.Bands(room, cancellation)).ToArray();
        foreach (double? place in (double?[])[whole, tenth])
        {
            if (place is { } axleEnd && FitsAt(axleEnd))
                return Moved(MountFit.Fits, axleEnd);
        }

        // Beyond the edge: the nearest end of each band that lies there.
        var beyond = bands.SelectMany(ofRoom => ofRoom).Select(band => outward ? band.Inner : band.Outer).Where(end => outward ? end > edge : end < edge).OrderBy(end => Math.Abs(end - from));
        foreach (double end in beyond)
        {
            if (FitsAt(end) && _opens(end))
                return Moved(MountFit.FitsBeyond, end);
        }

        var worst = rooms.SelectMany(room => FitCheck.Broken(room, edge, cancellation)).MinBy(contact => contact.Margin);
        return new WindowRemedy(RemedyKind.DamperPosition, present, null) { Move = new MountMove(MountFit.Nowhere, edge, outward, 0, worst) };

        bool FitsAt(double axleEnd) => bands.All(ofRoom => ofRoom.Any(band => axleEnd >= band.Inner && axleEnd <= band.Outer));

        WindowRemedy Moved(MountFit fit, double axleEnd)
        {
            double shift = axleEnd - from;
            return new WindowRemedy(RemedyKind.DamperPosition, present, present + shift)
            {
                Mounts = (_mounts.AxleEnd with { Y = axleEnd }, _mounts.BodyEnd with { Y = _mounts.BodyEnd.Y + shift }),
                Move = new MountMove(fit, edge, outward, shift, null),
            };
        }
    }

    /// <summary>The edge rounded to the open side; null where the window is not open there.</summary>
    private double? Round(double edge, double perMetre, bool outward)
    {
        double rounded = (outward ? Math.Ceiling(edge * perMetre) : Math.Floor(edge * perMetre)) / perMetre;
        return _opens(rounded) ? rounded : null;
    }
}
