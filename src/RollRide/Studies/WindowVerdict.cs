using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>How a layout's present setting stands to its window.</summary>
public enum WindowStanding
{
    /// <summary>It meets all targets.</summary>
    Inside,

    /// <summary>Some setting does, but this one is too soft.</summary>
    TooSoft,

    /// <summary>Some setting does, but this one is too hard.</summary>
    TooHard,

    /// <summary>No setting meets all targets.</summary>
    Closed,
}

/// <summary>Whether one setting can serve heave and roll with a layout, and where the present one stands. Thread-safe.</summary>
public sealed record WindowVerdict
{
    private readonly Lazy<SettingWindow> _window;

    private readonly Func<IModeFollower> _follower;

    private WindowVerdict(DampingTargets targets, DamperSetting setting, ModeSet modes, Lazy<SettingWindow> window, Func<IModeFollower> follower) =>
        (Targets, Setting, Modes, _window, _follower) = (targets, setting, modes, window, follower);

    /// <summary>What is asked for.</summary>
    public DampingTargets Targets { get; }

    /// <summary>The modes at the present setting.</summary>
    public ModeSet Modes { get; }

    /// <summary>The settings that meet the targets. They are searched for when first asked for, which takes longer than the rest by far.</summary>
    public SettingWindow Window
    {
        get => _window.Value;
        internal init => _window = new(value);
    }

    /// <summary>The present equivalent coefficient of each damper, of unlike ones the mean, at the targets' velocity, N·s/m.</summary>
    public double Coefficient => Setting.Coefficient;

    /// <summary>How the present setting stands to the window.</summary>
    public WindowStanding Standing =>
        !Window.IsOpen ? WindowStanding.Closed
        : Coefficient < Window.Lower.Coefficient ? WindowStanding.TooSoft
        : Coefficient > Window.Upper.Coefficient ? WindowStanding.TooHard
        : WindowStanding.Inside;

    /// <summary>The least scale on the present curve that meets every minimum; infinite if none does.</summary>
    public double LowerScale => Setting.ScaleOf(Window.Lower.Coefficient);

    /// <summary>The greatest scale on the present curve that the targets allow.</summary>
    public double UpperScale => Setting.ScaleOf(Window.Upper.Coefficient);

    private DamperSetting Setting { get; }

    /// <summary>The modes with the present curve scaled.</summary>
    /// <param name="scale">Factor on the curve.</param>
    public ModeSet ModesAt(double scale) => _follower().At(Setting.At(scale));

    /// <summary>Judges a layout.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="targets">What is asked for.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficient.</param>
    /// <exception cref="UnstableBodyException">The body is unstable in roll.</exception>
    /// <exception cref="UnnamedModesException">The modes at the present setting cannot be told apart.</exception>
    public static WindowVerdict Of(AssembledHalfCar car, DampingTargets targets, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(targets);
        var (linear, setting) = (LinearHalfCar.AtRest(car), DamperSetting.Of(car.Layout, targets.Velocity, includeFriction));

        // What cannot be searched fails here.
        var follower = new ModeFollower(linear.WithShares(car.Layout.SideShares(targets.Velocity)));
        return new WindowVerdict(
            targets, setting, ModeFollower.Solve(linear, car.Layout, targets.Velocity, includeFriction), new(() => SettingWindow.Find(follower, targets)),
            () => new ModeFollower(linear.WithShares(car.Layout.SideShares(targets.Velocity, DampingDirection.Both, includeFriction))));
    }

    /// <summary>Judges a layout on the whole vehicle: <see cref="Modes"/> are then as seen from its axle.</summary>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="targets">What is asked for.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficient.</param>
    /// <exception cref="UnstableBodyException">The vehicle is unstable in roll.</exception>
    /// <exception cref="UnnamedModesException">The modes at the present setting cannot be told apart.</exception>
    public static WindowVerdict OnVehicle(AssembledHalfCar car, DampingTargets targets, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(targets);
        var setting = DamperSetting.Of(car.Layout, targets.Velocity, includeFriction);
        IModeFollower Follower() => new VehicleModeFollower(car, targets.Velocity, includeFriction);
        return new WindowVerdict(targets, setting, Follower().At(setting.Coefficient), new(SettingWindow.OnVehicle(car, targets, includeFriction)), Follower);
    }

    /// <summary>The same setting judged by the window that serves the whole vehicle too.</summary>
    /// <param name="onVehicle">The window there, in the same state.</param>
    public WindowVerdict And(WindowVerdict onVehicle)
    {
        ArgumentNullException.ThrowIfNull(onVehicle);
        return this with { Window = SettingWindow.Common([Window, onVehicle.Window]) };
    }

    /// <summary>The window in coefficients that the dampers have in another state.</summary>
    /// <param name="other">What was found with the same dampers in the other state.</param>
    public SettingWindow WindowIn(WindowVerdict other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Setting.WindowIn(Window, other.Setting);
    }
}
