using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>An element whose compression is a function of its own wheel's travel <c>d = q + s·T·r</c> alone.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class WheelTravelLaw<T> : FittingLaw<T>
    where T : struct, ILanes<T>
{
    private readonly ISmoothFunction?[] _compressions = new ISmoothFunction?[T.Count];
    private readonly LaneBuffer<T> _halfTrack = new(1);

    /// <inheritdoc/>
    public override void Load(int lane, IFitting fitting)
    {
        var linkage = (WheelTravelFitting)fitting;
        _compressions[lane] = new WithinReach(linkage);
        _halfTrack[0, lane] = linkage.HalfTrack;
    }

    /// <inheritdoc/>
    public override void At(in RelativePosition<T> position, Side side, out ElementMotion<T> motion)
    {
        var arm = side == Side.Left ? _halfTrack[0] : -_halfTrack[0];
        motion.Compression = T.Map(_compressions, position.Heave + (arm * position.Roll), out motion.HeaveRatio);
        motion.RollArm = motion.HeaveRatio * arm;
    }

    /// <inheritdoc/>
    public override bool HasFaults => true;

    /// <inheritdoc/>
    public override Exception? TakeFault(int lane) => ((WithinReach?)_compressions[lane])?.TakeFault();

    /// <summary>Has no value out of the linkage's reach, where a step that strays there is tried again shorter, and remembers that it was left.</summary>
    private sealed class WithinReach(WheelTravelFitting fitting) : ISmoothFunction
    {
        private UnreachableTravelException? _fault;

        public (double Value, double First) At(double x)
        {
            try
            {
                return fitting.CompressionAndRatio(x);
            }
            catch (UnreachableTravelException e)
            {
                _fault = e;
                return (double.NaN, double.NaN);
            }
        }

        public double SecondAt(double x) => fitting.RatioSlope(x);

        public UnreachableTravelException? TakeFault()
        {
            var fault = _fault;
            _fault = null;
            return fault;
        }
    }
}
