using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>Generalised forces of a half-car that does not move, and their derivatives, from the equations of motion themselves. Not thread-safe.</summary>
internal sealed class HalfCarSlopes : IStandingForces
{
    private const int N = HalfCarState.Rates;

    private readonly HalfCarEquations<Dual> _equations;
    private readonly LaneBuffer<Dual> _channels = new(ChannelTable.Count);
    private readonly Dual[] _state;
    private readonly double[] _masses;

    /// <summary>Takes a car.</summary>
    /// <param name="car">Vehicle and layout, its dampers in rigid mounts; one axle.</param>
    public HalfCarSlopes(AssembledHalfCar car)
    {
        _equations = new HalfCarEquations<Dual>(car);
        _equations.Load(0, car);
        _state = new Dual[_equations.Dimension];
        var vehicle = car.Vehicle;
        _masses = [vehicle.Body.Mass, vehicle.BodyRollInertia, vehicle.Unsprung.Mass, vehicle.UnsprungRollInertia];
        CgArm = car.Leans ? car.CgArm : 0;
    }

    /// <inheritdoc/>
    public int Coordinates => N;

    /// <summary>Picks one of the inputs.</summary>
    public delegate ref Dual Input(ref HalfCarEquations<Dual>.Inputs inputs);

    /// <inheritdoc/>
    public ReadOnlySpan<double> Masses => _masses;

    /// <summary>Lateral position of the body's centre of gravity seen from the roll centre, m: with <c>e</c> heave and roll share the inertia <c>ms e</c>.</summary>
    public double CgArm { get; }

    /// <summary>Slope of the left and the right damper's compression by the state that the equations were differentiated by last.</summary>
    public (double Left, double Right) DamperArms => (Slope(Channel.DamperTravelLeft), Slope(Channel.DamperTravelRight));

    /// <inheritdoc/>
    public void Hold(double roadLeft, double roadRight, double lateralAcceleration) => _equations.Hold(0, roadLeft, roadRight, lateralAcceleration);

    /// <inheritdoc/>
    public void Stiffness(ReadOnlySpan<double> position, Span<double> stiffness)
    {
        for (var i = 0; i < N; i++)
            ByState(position, i, stiffness.Slice(N * i, N));
        for (var i = 0; i < stiffness.Length; i++)
            stiffness[i] = -stiffness[i];
    }

    /// <summary>Derivatives of the generalised forces by one state.</summary>
    /// <param name="position">The coordinates, m and rad.</param>
    /// <param name="index">The state; coordinates come first, then their rates.</param>
    /// <param name="slopes">Receives them, one for each coordinate.</param>
    public void ByState(ReadOnlySpan<double> position, int index, Span<double> slopes)
    {
        Place(position);
        _state[index] = new Dual(_state[index].Value, 1);
        Evaluate();
        WriteForces(slopes, ofSlopes: true);
    }

    /// <summary>Derivatives of the generalised forces by one input.</summary>
    /// <param name="position">The coordinates, m and rad.</param>
    /// <param name="input">The input.</param>
    /// <param name="slopes">Receives them, one for each coordinate.</param>
    public void ByInput(ReadOnlySpan<double> position, Input input, Span<double> slopes)
    {
        Place(position);
        ref var value = ref input(ref _equations.HeldInputs);
        value = new Dual(value.Value, 1);
        Evaluate();
        value = new Dual(value.Value, 0);
        WriteForces(slopes, ofSlopes: true);
    }

    /// <inheritdoc/>
    public void Accelerations(ReadOnlySpan<double> position, Span<double> accelerations)
    {
        Place(position);
        Evaluate();
        for (var i = 0; i < N; i++)
            accelerations[i] = _channels[(int)Acceleration(i)].Value;
    }

    /// <inheritdoc/>
    public void Forces(ReadOnlySpan<double> position, Span<double> forces)
    {
        Place(position);
        Evaluate();
        WriteForces(forces, ofSlopes: false);
    }

    /// <summary>The forces that bring about the accelerations, or their slopes.</summary>
    private void WriteForces(Span<double> forces, bool ofSlopes)
    {
        double Of(Channel channel) => ofSlopes ? Slope(channel) : _channels[(int)channel].Value;
        for (var i = 0; i < N; i++)
            forces[i] = Masses[i] * Of(Acceleration(i));
        if (CgArm == 0)
            return;
        var coupling = Masses[HalfCarState.BodyHeave] * CgArm;
        forces[HalfCarState.BodyHeave] += coupling * Of(Channel.BodyRollAcceleration);
        forces[HalfCarState.BodyRoll] += coupling * Of(Channel.BodyAcceleration);
    }

    private static Channel Acceleration(int coordinate) => coordinate switch
    {
        HalfCarState.BodyHeave => Channel.BodyAcceleration,
        HalfCarState.BodyRoll => Channel.BodyRollAcceleration,
        HalfCarState.UnsprungHeave => Channel.UnsprungAcceleration,
        _ => Channel.UnsprungRollAcceleration,
    };

    private void Place(ReadOnlySpan<double> position)
    {
        for (var i = 0; i < _state.Length; i++)
            _state[i] = Dual.All(i < N ? position[i] : 0);
    }

    private void Evaluate() => _equations.Evaluate(default, _state, ref _channels[0]);

    private double Slope(Channel channel) => _channels[(int)channel].Slope;
}
