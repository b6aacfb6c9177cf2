using RollRide.Cornering;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Turns the cornering of a file into its input.</summary>
internal static class CorneringReader
{
    // m/s²: beyond this a slip in a unit is likelier than such tyres; common practice, no source.
    private const double StrongestTyres = 12;

    // 1/s: far beyond any road vehicle; more would only make the equations stiff and the integration slow.
    private const double FastestYaw = 2000;

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
                ? ReadRecord(context, $"{path}.file", record, Acceleration, 1, duration)
                : ReadEvents(context, $"{path}.events", given.Events!, e => e.Amplitude, duration);
            input = signal is null ? null : context.Make(path, () => new GivenLateralAcceleration(signal, RearDelay(context, $"{path}.rearDelay_s", given)));
        }
        else
        {
            path += ".steering";
            var steering = file.Steering!;
            var signal = steering.File is { } record
                ? ReadRecord(context, $"{path}.file", record, Angle, Unit.Degree.InSi, duration)
                : ReadEvents(context, $"{path}.events", steering.Events!, e => e.AmplitudeDeg * Unit.Degree.InSi, duration);
            var model = ReadSingleTrack(context, $"{path}.singleTrack", steering.SingleTrack);
            WholeVehicleReader.CheckSingleTrack(context, $"{path}.singleTrack", steering.SingleTrack);
            if (model is not null && CheckSingleTrack(context, $"{path}.singleTrack", model, speed) && signal is not null)
                input = context.Make(path, () => new SteeredLateralAcceleration(model, signal, speed, duration));
        }

        if (input is not null && PeakOf(input, duration) is > StrongestTyres and var peak)
            context.Warn(path, $"the lateral acceleration reaches {peak:F1} m/s²; road tyres hold about 10");
        return context.Faults.Count > before ? null : input;
    }

    private static double RearDelay(ReadingContext context, string path, LateralAccelerationFile file)
    {
        if (file.RearDelay > 0 && context.File.WholeVehicle is null)
            context.Refuse(path, $"this file has one axle only; give wholeVehicle, or leave this key out");
        return file.RearDelay;
    }

    /// <summary>Says whether the single-track model can be driven at a speed, and what is not plausible about it.</summary>
    private static bool CheckSingleTrack(ReadingContext context, string path, SingleTrackModel model, double speed)
    {
        var vehicle = context.File.Vehicle;
        var axle = vehicle.Body.MassKg + vehicle.Unsprung.MassKg;
        if (model.Mass < axle)
        {
            context.Refuse($"{path}.mass_kg", $"the whole vehicle cannot weigh less than this one axle with its share of the body ({axle} kg)");
            return false;
        }

        if (!model.IsStable(speed))
        {
            context.Refuse(path, $"the vehicle oversteers and {Unit.KilometrePerHour.Show(speed):F0} is above its critical speed of {Unit.KilometrePerHour.Show(model.CriticalSpeed):F0}: it would spin");
            return false;
        }

        // Rates at which sideslip and yaw die away.
        var (front, rear) = (model.FrontCorneringStiffness, model.RearCorneringStiffness);
        var fastest = Math.Max((front + rear) / (model.Mass * speed), ((model.A * model.A * front) + (model.B * model.B * rear)) / (model.YawInertia * speed));
        if (fastest > FastestYaw)
        {
            context.Refuse(path, $"at {Unit.KilometrePerHour.Show(speed):F0} this vehicle would answer the steering within {Unit.Microsecond.Show(1 / fastest):F0}; road vehicles take 20 ms and more: drive faster, or check masses and stiffnesses");
            return false;
        }

        var gyration = Math.Sqrt(model.YawInertia / model.Mass);
        if (model.Wheelbase is < 1.5 or > 8)
            context.Warn($"{path}.cgToFrontAxle_mm", $"the wheelbase is {Unit.Millimetre.Show(model.Wheelbase):F0}; road vehicles have 1500 to 8000 mm");
        if (gyration / model.Wheelbase is < 0.25 or > 0.75)
            context.Warn($"{path}.yawInertia_kg_m2", $"its radius of gyration is {gyration / model.Wheelbase:F2} of the wheelbase; road vehicles have 0.25 to 0.75");
        foreach (var (key, stiffness, load) in new[]
        {
            ("frontCorneringStiffness_kN_per_rad", front, model.Mass * model.B / model.Wheelbase),
            ("rearCorneringStiffness_kN_per_rad", rear, model.Mass * model.A / model.Wheelbase),
        })
        {
            var coefficient = stiffness / (load * Vehicle.HalfCar.StandardGravity);
            if (coefficient is < 3 or > 40)
                context.Warn($"{path}.{key}", $"this is {coefficient:F1} times the axle's load per rad; road tyres give 5 to 25");
        }

        if (model.SteeringRatio is < 5 or > 40)
            context.Warn($"{path}.steeringRatio", $"road vehicles have 5 to 40");
        return true;
    }

    /// <summary>The largest size of the lateral acceleration, from samples of each piece.</summary>
    private static double PeakOf(ICorneringInput input, double duration)
    {
        const int Samples = 200;
        var cursor = input.CreateCursor();
        double[] ends = [0, .. input.Breakpoints.Where(time => time > 0 && time < duration), duration];
        var peak = 0.0;
        for (var k = 1; k < ends.Length; k++)
        {
            cursor.EnterSegment(0.5 * (ends[k - 1] + ends[k]));
            foreach (var time in EvenSteps.Of(ends[k - 1], ends[k], Samples))
                peak = Math.Max(peak, Math.Abs(cursor.LateralAcceleration(time)));
        }

        return peak;
    }

    private static PiecewiseSignal ReadEvents<T>(ReadingContext context, string path, IReadOnlyList<T> events, Func<T, double> amplitude, double duration)
        where T : ITimeEventFile
    {
        var sum = PiecewiseSignal.Zero;
        for (var i = 0; i < events.Count; i++)
        {
            var timeEvent = events[i];
            if (context.Make($"{path}[{i}]", () => Shape(timeEvent, amplitude(timeEvent))) is not { } signal)
                continue;
            if (timeEvent.Start >= duration)
                context.Warn($"{path}[{i}].start_s", $"the run ends at {duration} s, before this event");
            else if (signal.Breakpoints[^1] > duration)
                context.Warn($"{path}[{i}].start_s", $"the run ends at {duration} s, before this event is over at {signal.Breakpoints[^1]:F2} s");
            sum = sum.Plus(signal);
        }

        return sum;
    }

    private static PiecewiseSignal Shape(ITimeEventFile file, double amplitude) => file switch
    {
        { RampStep: { } step } => CorneringEvents.Ramp(file.Start, step.RampDuration, amplitude),
        { Sine: { } sine } => CorneringEvents.Sine(file.Start, sine.Frequency, amplitude, sine.Cycles),
        { SineWithDwell: { } dwell } => CorneringEvents.SineWithDwell(file.Start, dwell.Frequency, amplitude, dwell.Dwell),
        { SweptSine: { } swept } => CorneringEvents.SweptSine(file.Start, swept.StartFrequency, swept.EndFrequency, amplitude, swept.Cycles),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static PiecewiseSignal? ReadRecord(ReadingContext context, string path, string name, string column, double scale, double duration)
    {
        var table = context.Table(path, name, [Time, column]);
        if (table is null)
            return null;
        return context.Make(path, () =>
        {
            table.RequireStrictlyAscending(Time);
            var (first, last) = (table.Column(Time)[0], table.Column(Time)[^1]);
            if (first >= duration || last <= 0)
                context.Warn(path, $"the record runs from {first} to {last} s and misses the run, from 0 to {duration} s");
            else if (last < duration)
                context.Warn(path, $"the record ends at {last} s and the run at {duration} s; its last value is held");
            var values = table.Column(column).Select(value => value * scale).ToArray();
            return CorneringEvents.Sampled(table.Column(Time), values);
        });
    }

    private static SingleTrackModel? ReadSingleTrack(ReadingContext context, string path, SingleTrackFile file) =>
        context.Make(path, () => new SingleTrackModel
        {
            Mass = file.MassKg,
            YawInertia = file.YawInertia,
            A = file.CgToFrontAxleMm * Unit.Millimetre.InSi,
            B = file.CgToRearAxleMm * Unit.Millimetre.InSi,
            FrontCorneringStiffness = file.FrontCorneringStiffness * Unit.KilonewtonPerRadian.InSi,
            RearCorneringStiffness = file.RearCorneringStiffness * Unit.KilonewtonPerRadian.InSi,
            SteeringRatio = file.SteeringRatio,
        });
}
