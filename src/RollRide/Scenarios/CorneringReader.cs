using RollRide.Cornering;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Turns the cornering of a file into its input.</summary>
internal static class CorneringReader
{
    private const string Time = "time_s";
    private const string Acceleration = "lateralAcceleration_m_per_s2";
    private const string Angle = "steeringWheelAngle_deg";

    /// <summary>Reads the cornering; null after a fault.</summary>
    public static ICorneringInput? Read(ReadingContext context, string path, CorneringFile? file, double speed, double duration)
    {
        if (file is null)
            return GivenLateralAcceleration.StraightAhead;
        var before = context.Faults.Count;
        ICorneringInput? input = null;
        if (file.LateralAcceleration is { } given)
        {
            path += ".lateralAcceleration";
            var signal = given.File is { } record
                ? ReadRecord(context, $"{path}.file", record, Acceleration, 1)
                : ReadEvents(context, $"{path}.events", given.Events!, e => e.Amplitude, duration);
            input = signal is null ? null : context.Make(path, () => new GivenLateralAcceleration(signal));
        }
        else
        {
            path += ".steering";
            var steering = file.Steering!;
            var signal = steering.File is { } record
                ? ReadRecord(context, $"{path}.file", record, Angle, Units.RadPerDeg)
                : ReadEvents(context, $"{path}.events", steering.Events!, e => e.AmplitudeDeg * Units.RadPerDeg, duration);
            var model = ReadSingleTrack(context, $"{path}.singleTrack", steering.SingleTrack);
            if (model is not null && !model.IsStable(speed))
                context.Refuse($"{path}.singleTrack", $"the vehicle oversteers and {speed * 3.6:F0} km/h is above its critical speed of {model.CriticalSpeed * 3.6:F0} km/h: it would spin");
            else if (signal is not null && model is not null)
                input = context.Make(path, () => new SteeredLateralAcceleration(model, signal, speed, duration));
        }

        if (input is not null && Math.Abs(input.FinalLateralAcceleration) > 12)
            context.Warn(path, $"the final lateral acceleration is {input.FinalLateralAcceleration:F1} m/s²; road tyres hold about 10");
        return context.Faults.Count > before ? null : input;
    }

    private static PiecewiseSignal ReadEvents<T>(ReadingContext context, string path, IReadOnlyList<T> events, Func<T, double> amplitude, double duration)
        where T : ITimeEventFile
    {
        var sum = PiecewiseSignal.Zero;
        for (var i = 0; i < events.Count; i++)
        {
            var timeEvent = events[i];
            if (timeEvent.Start >= duration)
                context.Warn($"{path}[{i}].start_s", $"the run ends at {duration} s, before this event");
            if (context.Make($"{path}[{i}]", () => Shape(timeEvent, amplitude(timeEvent))) is { } signal)
                sum = sum.Plus(signal);
        }

        return sum;
    }

    private static PiecewiseSignal Shape(ITimeEventFile file, double amplitude) => file switch
    {
        { RampStep: { } step } => CorneringEvents.RampStep(file.Start, step.RampDuration, amplitude),
        { Sine: { } sine } => CorneringEvents.Sine(file.Start, sine.Frequency, amplitude, sine.Cycles),
        { SineWithDwell: { } dwell } => CorneringEvents.SineWithDwell(file.Start, dwell.Frequency, amplitude, dwell.Dwell),
        { SweptSine: { } swept } => CorneringEvents.SweptSine(file.Start, swept.StartFrequency, swept.EndFrequency, amplitude, swept.Cycles),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static PiecewiseSignal? ReadRecord(ReadingContext context, string path, string name, string column, double scale)
    {
        var table = context.Table(path, name, [Time, column]);
        if (table is null)
            return null;
        return context.Make(path, () =>
        {
            table.RequireStrictlyAscending(Time);
            var values = table.Column(column).Select(value => value * scale).ToArray();
            return CorneringEvents.Sampled(table.Column(Time), values);
        });
    }

    private static SingleTrackModel? ReadSingleTrack(ReadingContext context, string path, SingleTrackFile file) =>
        context.Make(path, () => new SingleTrackModel
        {
            Mass = file.MassKg,
            YawInertia = file.YawInertia,
            A = file.CgToFrontAxleMm * Units.MetresPerMm,
            B = file.CgToRearAxleMm * Units.MetresPerMm,
            FrontCorneringStiffness = file.FrontCorneringStiffness * Units.Kilo,
            RearCorneringStiffness = file.RearCorneringStiffness * Units.Kilo,
            SteeringRatio = file.SteeringRatio,
        });
}
