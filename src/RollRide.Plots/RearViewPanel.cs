using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Plots;

/// <summary>
/// The axle seen from behind, to scale, left on the left: wheels, axle or arms, the body's outline as a sketch, and where the dampers
/// of each layout stand.
/// </summary>
/// <remarks>Positions of dampers, track, heights of centre of gravity and roll centre are true; the outline of body and tyres is a sketch.</remarks>
public sealed record RearViewPanel
{
    private const double SketchedLength = 0.45; // of a damper that is given by its ratios, m
    private const double DamperThickness = 4.5;

    private readonly HalfCar _vehicle;
    private readonly IReadOnlyList<(DamperLayout Layout, SeriesStyle Style)> _layouts;

    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layouts">The layouts to draw, each with its style, see <see cref="LayoutStyles"/>.</param>
    public RearViewPanel(string? title, HalfCar vehicle, IReadOnlyList<(DamperLayout Layout, SeriesStyle Style)> layouts) =>
        (Title, _vehicle, _layouts) = (title, vehicle, layouts);

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>Where the layouts are named.</summary>
    public LabelPlacement Labels { get; init; } = LabelPlacement.AbovePanels;

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        model.PlotType = PlotType.Cartesian;
        var tyreWidth = TyreOutline.Width(_vehicle);
        var widest = Unit.Millimetre.Of((_vehicle.HalfTrack + (_vehicle.Tyre.DualSpacing ?? 0) / 2 + tyreWidth));
        var ends = _layouts.SelectMany(entry => new[] { EndsOf(entry.Layout.Fitting), EndsOf(entry.Layout.On(Side.Right).Fitting) }).OfType<(RearViewPoint Lower, RearViewPoint Upper)>().ToArray();
        var top = 1.12 * Unit.Millimetre.Of(ends.Select(pair => pair.Upper.Z).Append(_vehicle.Body.CgHeight).Max());
        var across = PlotAxis.Linear(AxisPosition.Bottom, "Lateral position, left positive", "mm", new PlotRange(-widest, widest));
        (across.StartPosition, across.EndPosition) = (1, 0);
        model.Axes.Add(across);
        model.Axes.Add(PlotAxis.Linear(AxisPosition.Left, "Height", "mm", new PlotRange(0, top)));
        AddVehicle(model, tyreWidth, top);
        foreach (var (layout, style) in _layouts)
            AddDampers(model, layout, style);
        // Both are points of the centre plane.
        model.Annotations.Add(new PeakLabels(
            [new PeakMark(0, Unit.Millimetre.Of(_vehicle.Body.CgHeight), "centre of gravity", OtherStyles.Point), new PeakMark(0, Unit.Millimetre.Of(_vehicle.RollCentreHeight), "roll centre", OtherStyles.Point)], areMarkers: true));
        model.Annotations.Add(new DirectLabels([.. _layouts.Select(entry => new CurveEnd(entry.Layout.Name, entry.Style, 0, 0))], Labels, []));
        return model;
    }

    private (RearViewPoint Lower, RearViewPoint Upper)? EndsOf(IFitting fitting) => fitting switch
    {
        LiveAxleMountFitting mounts => (new RearViewPoint(mounts.AxleEnd.Y, mounts.AxleEnd.Z), new RearViewPoint(mounts.BodyEnd.Y, mounts.BodyEnd.Z)),
        ArmMountFitting arm => (arm.LowerMount, arm.UpperMount),
        LinkageMountFitting mounts => (new RearViewPoint(mounts.LinkageEnd.Y, mounts.LinkageEnd.Z), new RearViewPoint(mounts.BodyEnd.Y, mounts.BodyEnd.Z)),
        FixedRatioFitting { HeaveRatio: > 0 } ratios when !_vehicle.Suspension.GuidesEachWheel => Upright(ratios.HalfTrack * ratios.RollRatio / ratios.HeaveRatio),
        _ => null,
    };

    private (RearViewPoint Lower, RearViewPoint Upper) Upright(double y) =>
        (new RearViewPoint(y, _vehicle.Unsprung.CgHeight), new RearViewPoint(y, _vehicle.Unsprung.CgHeight + SketchedLength));

    private void AddVehicle(PlotModel model, double tyreWidth, double top)
    {
        var hub = Unit.Millimetre.Of(_vehicle.Unsprung.CgHeight);
        foreach (var y in _vehicle.ContactPositions)
            AddBox(model, Unit.Millimetre.Of(y - tyreWidth / 2), Unit.Millimetre.Of(y + tyreWidth / 2), 0, 2 * hub, Theme.Grid);
        // The body's underside is sketched between hub and centre of gravity.
        var floor = hub + (Unit.Millimetre.Of(_vehicle.Body.CgHeight) - hub) * 0.45;
        AddBox(model, Unit.Millimetre.Of(-0.8 * _vehicle.HalfTrack), Unit.Millimetre.Of(0.8 * _vehicle.HalfTrack), floor, top, OxyColors.White);
        if (_vehicle.Suspension.HasAxle)
        {
            AddLine(model, [(Unit.Millimetre.Of(-_vehicle.HalfTrack), hub), (Unit.Millimetre.Of(_vehicle.HalfTrack), hub)], Theme.SoftInk, 5);
        }
        else
        {
            foreach (var side in (Side[])[Side.Left, Side.Right])
            {
                foreach (var arm in _layouts.Select(entry => entry.Layout.On(side).Fitting).OfType<ArmMountFitting>().Take(1))
                    AddLine(model, [(Unit.Millimetre.Of((int)side * arm.Pivot.Y), Unit.Millimetre.Of(arm.Pivot.Z)), (Unit.Millimetre.Of((int)side * arm.OuterJoint.Y), Unit.Millimetre.Of(arm.OuterJoint.Z))], Theme.SoftInk, 5);
            }
        }
    }

    private void AddDampers(PlotModel model, DamperLayout layout, SeriesStyle style)
    {
        foreach (var side in (Side[])[Side.Left, Side.Right])
        {
            if (EndsOf(layout.On(side).Fitting) is not var (lower, upper))
                continue;
            var line = new LineSeries
            {
                Color = style.Color,
                StrokeThickness = DamperThickness,
                MarkerType = style.Marker,
                MarkerSize = Theme.MarkerSize + 2,
                MarkerFill = style.MarkerFill,
                MarkerStroke = style.Color,
                MarkerStrokeThickness = 1.5,
                ToolTip = layout.Name,
            };
            line.Points.Add(new DataPoint(Unit.Millimetre.Of((int)side * lower.Y), Unit.Millimetre.Of(lower.Z)));
            line.Points.Add(new DataPoint(Unit.Millimetre.Of((int)side * upper.Y), Unit.Millimetre.Of(upper.Z)));
            model.Series.Add(line);
        }
    }

    private static void AddBox(PlotModel model, double left, double right, double bottom, double top, OxyColor fill) => model.Annotations.Add(new RectangleAnnotation
    {
        MinimumX = left,
        MaximumX = right,
        MinimumY = bottom,
        MaximumY = top,
        Fill = fill,
        Stroke = Theme.Zero,
        StrokeThickness = 1,
        Layer = AnnotationLayer.BelowSeries,
    });

    private static void AddLine(PlotModel model, IReadOnlyList<(double X, double Y)> points, OxyColor color, double thickness)
    {
        var line = new LineSeries { Color = color, StrokeThickness = thickness };
        line.Points.AddRange(points.Select(point => new DataPoint(point.X, point.Y)));
        model.Series.Add(line);
    }
}
