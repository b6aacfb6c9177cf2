namespace RollRide.Dynamics;

/// <summary>Forces on a vehicle with two axles that does not move: those at each axle, and the moment of the frame between its ends. Not thread-safe.</summary>
internal sealed class VehicleForces : IStandingForces
{
    private const int N = HalfCarState.Rates;

    // A frame that does not twist has one roll angle for both ends.
    private static readonly int[] WithTwist = [0, 1, 2, 3, 4, 5, 6, 7];
    private static readonly int[] WithoutTwist = [0, 1, 2, 3, 4, HalfCarState.BodyRoll, 5, 6];

    private readonly HalfCarSlopes _own;
    private readonly HalfCarSlopes _second;
    private readonly int[] _places;
    private readonly double _twist;
    private readonly double[] _masses;
    private readonly double[] _part = new double[N * N];

    /// <summary>Takes a vehicle.</summary>
    /// <param name="car">Vehicle and layout, with two axles, the dampers in rigid mounts.</param>
    public VehicleForces(AssembledHalfCar car)
    {
        (_own, _second) = (new HalfCarSlopes(car.Alone()), new HalfCarSlopes(car.Second!));
        var stiffness = car.Vehicle.SecondAxle!.Chassis.TorsionalStiffness;
        (_places, _twist) = (PlacesOf(stiffness is null), stiffness ?? 0);
        Coordinates = _places[^1] + 1;
        _masses = new double[Coordinates];
        double[] masses = [.. _own.Masses, .. _second.Masses];
        for (var i = 0; i < masses.Length; i++)
            _masses[_places[i]] += masses[i];
    }

    /// <inheritdoc/>
    public int Coordinates { get; }

    /// <inheritdoc/>
    public ReadOnlySpan<double> Masses => _masses;

    /// <summary>Which coordinate of the vehicle each of <c>(zs, φs, zu, φu)</c> is, first of the axle that the layouts are for and then of the other.</summary>
    /// <param name="isRigid">Whether the frame does not twist.</param>
    public static int[] PlacesOf(bool isRigid) => isRigid ? WithoutTwist : WithTwist;

    /// <inheritdoc/>
    public void Hold(double roadLeft, double roadRight, double lateralAcceleration)
    {
        _own.Hold(roadLeft, roadRight, lateralAcceleration);
        _second.Hold(roadLeft, roadRight, lateralAcceleration);
    }

    /// <inheritdoc/>
    public void Forces(ReadOnlySpan<double> position, Span<double> forces)
    {
        Span<double> own = stackalloc double[N], part = stackalloc double[N];
        forces.Clear();
        for (var axle = 0; axle < 2; axle++)
        {
            ReadPart(position, axle, own);
            SlopesOf(axle).Forces(own, part);
            for (var i = 0; i < N; i++)
                forces[_places[(axle * N) + i]] += part[i];
        }

        var (first, second) = (_places[HalfCarState.BodyRoll], _places[N + HalfCarState.BodyRoll]);
        var moment = _twist * (position[second] - position[first]);
        forces[first] += moment;
        forces[second] -= moment;
    }

    /// <inheritdoc/>
    public void Accelerations(ReadOnlySpan<double> position, Span<double> accelerations)
    {
        Forces(position, accelerations);
        for (var i = 0; i < Coordinates; i++)
            accelerations[i] /= _masses[i];
    }

    /// <inheritdoc/>
    public void Stiffness(ReadOnlySpan<double> position, Span<double> stiffness)
    {
        Span<double> own = stackalloc double[N];
        stiffness.Clear();
        for (var axle = 0; axle < 2; axle++)
        {
            ReadPart(position, axle, own);
            SlopesOf(axle).Stiffness(own, _part);
            for (var column = 0; column < N; column++)
            {
                for (var row = 0; row < N; row++)
                    stiffness[(_places[(axle * N) + column] * Coordinates) + _places[(axle * N) + row]] += _part[(column * N) + row];
            }
        }

        var (first, second) = (_places[HalfCarState.BodyRoll], _places[N + HalfCarState.BodyRoll]);
        stiffness[(first * Coordinates) + first] += _twist;
        stiffness[(second * Coordinates) + second] += _twist;
        stiffness[(first * Coordinates) + second] -= _twist;
        stiffness[(second * Coordinates) + first] -= _twist;
    }

    private HalfCarSlopes SlopesOf(int axle) => axle == 0 ? _own : _second;

    private void ReadPart(ReadOnlySpan<double> position, int axle, Span<double> part)
    {
        for (var i = 0; i < N; i++)
            part[i] = position[_places[(axle * N) + i]];
    }
}
