namespace RollRide.Damping;

/// <summary>
/// One piece of a force–velocity curve, <c>F = c0 + c1 x + c2 x² + c3 x³</c> with <c>x = v − origin</c>.
/// </summary>
internal readonly record struct CurveSegment(double Origin, double C0, double C1, double C2, double C3)
{
    /// <summary>Whether all its coefficients are finite numbers.</summary>
    public bool IsFinite => double.IsFinite(C0 + C1 + C2 + C3);

    /// <summary>Whether the piece is a straight line.</summary>
    public bool IsLinear => C2 == 0 && C3 == 0;

    /// <summary>
    /// The straight line through two points, written <c>F = m v + b</c>. The intercept is taken from the point nearer
    /// to rest, so that a line through the origin has none at all.
    /// </summary>
    public static CurveSegment Through(ForceVelocityPoint p, ForceVelocityPoint q)
    {
        double m = (q.Force - p.Force) / (q.Velocity - p.Velocity);
        var nearer = Math.Abs(p.Velocity) <= Math.Abs(q.Velocity) ? p : q;
        return new CurveSegment(0, nearer.Force - m * nearer.Velocity, m, 0, 0);
    }

    /// <summary>The straight line through a point with a slope.</summary>
    public static CurveSegment Tangent(ForceVelocityPoint p, double slope) => new(p.Velocity, p.Force, slope, 0, 0);

    /// <summary>The cubic (Hermite) through two points with given slopes there.</summary>
    public static CurveSegment Hermite(ForceVelocityPoint p, double slopeAtP, ForceVelocityPoint q, double slopeAtQ)
    {
        double h = q.Velocity - p.Velocity;
        double chord = (q.Force - p.Force) / h;
        return new CurveSegment(
            p.Velocity,
            p.Force,
            slopeAtP,
            (3 * chord - 2 * slopeAtP - slopeAtQ) / h,
            (slopeAtP + slopeAtQ - 2 * chord) / (h * h));
    }

    /// <summary>Force at a velocity, N.</summary>
    public double Force(double velocity)
    {
        double x = velocity - Origin;
        return C0 + x * (C1 + x * (C2 + x * C3));
    }

    /// <summary>Slope at a velocity, N·s/m.</summary>
    public double Slope(double velocity)
    {
        double x = velocity - Origin;
        return C1 + x * (2 * C2 + x * 3 * C3);
    }

    /// <summary>The second derivative of the force, N·s²/m².</summary>
    public double SlopeSlope(double velocity) => (2 * C2) + (6 * C3 * (velocity - Origin));
}
