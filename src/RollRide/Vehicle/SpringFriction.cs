using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>
/// The friction of a leaf spring or of bushes, beside the spring and at its compression. Its force depends on the path, not on how fast it is gone:
/// each reversal starts it anew towards the full force of the other direction. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// <code>
/// dF/dX = (Fc sgn Ẋ − F)/β
/// </code>
/// P. S. Fancher et al., SAE 800905 (1980), for leaf springs; the same as the friction of P. R. Dahl (1968) with the initial stiffness <c>σ = Fc/β</c>; both from memory.
/// The part <c>F²/(2σ)</c> of its energy is given back, the rest <c>|Ẋ| F²/Fc</c> is heat and never negative. It does not obey Masing's rules, and a mean force
/// fades with the path: by <c>exp(−4a/β)</c> in each small cycle of amplitude <c>a</c>. Sliders in parallel would keep it, but switch abruptly: the one
/// smooth state costs less, and its law is the one that leaf springs were measured by.
/// </remarks>
/// <param name="Force">Full friction force <c>Fc</c>, N; greater than 0.</param>
/// <param name="BuildUp">Compression over which it builds up <c>β</c>, m: the share <c>1 − 1/e</c> of the way to the full force. Greater than 0.</param>
public sealed record SpringFriction(double Force, double BuildUp)
{
    // Of a loop of amplitude X the share Q = area/(4 X h) lies between that of a small one, 2/3, and that of a rectangle.
    private const double SmallLoop = 2.0 / 3;

    /// <summary>Full friction force <c>Fc</c>, N.</summary>
    public double Force { get; init => field = Require.Positive(value, "N", nameof(Force)); } = Require.Positive(Force, "N");

    /// <summary>Compression over which it builds up <c>β</c>, m.</summary>
    public double BuildUp { get; init => field = Require.Positive(value, "m", nameof(BuildUp)); } = Require.Positive(BuildUp, "m");

    /// <summary>Stiffness from rest <c>σ = Fc/β</c>, N/m.</summary>
    public double Stiffness => Force / BuildUp;

    /// <summary>Force at the tips of a steady loop <c>Fc tanh(X/β)</c>, N.</summary>
    /// <param name="amplitude">Amplitude of the compression <c>X</c>, m; 0 or more.</param>
    public double TipForce(double amplitude) => Force * Math.Tanh(amplitude / BuildUp);

    /// <summary>Stiffness between the tips of a steady loop <c>Fc tanh(X/β)/X</c>, N/m.</summary>
    /// <param name="amplitude">Amplitude of the compression <c>X</c>, m; 0 or more.</param>
    public double StiffnessAt(double amplitude) => amplitude == 0 ? Stiffness : TipForce(amplitude) / amplitude;

    /// <summary>Energy turned into heat in a steady loop <c>4 Fc (X − β tanh(X/β))</c>, J.</summary>
    /// <param name="amplitude">Amplitude of the compression <c>X</c>, m; 0 or more.</param>
    public double LoopEnergy(double amplitude)
    {
        var u = amplitude / BuildUp;

        // The difference of nearly the same numbers is small: its series.
        return 4 * Force * BuildUp * (u < 1e-3 ? u * u * u * ((1.0 / 3) - (2 * u * u / 15)) : u - Math.Tanh(u));
    }

    /// <summary>
    /// Damping ratio of one mass on spring and friction together that swings with an amplitude, by the energy of a cycle <c>ΔE/(2π k X²)</c>
    /// (Den Hartog, <em>Mechanical Vibrations</em>, ch. 8; from memory).
    /// </summary>
    /// <param name="springRate">Rate of the spring without its friction, N/m; greater than 0.</param>
    /// <param name="amplitude">Amplitude of the compression <c>X</c>, m; greater than 0.</param>
    public double DampingRatio(double springRate, double amplitude) =>
        LoopEnergy(amplitude) / (2 * Math.PI * (Require.Positive(springRate, "N/m") + StiffnessAt(amplitude)) * amplitude * amplitude);

    /// <summary>
    /// The friction that gives a steady loop: of its area <c>4 Fc (X − β tanh(X/β))</c> and its half-width in the middle <c>Fc (1 − 1/cosh(X/β))</c>, whatever the
    /// spring beside it, as long as that is the same on both branches.
    /// </summary>
    /// <param name="amplitude">Half of the loop's stroke <c>X</c>, m; greater than 0.</param>
    /// <param name="area">Area of the loop, J; greater than 0.</param>
    /// <param name="halfWidth">Half of the difference of force in the middle of the stroke, N; greater than 0.</param>
    /// <exception cref="ArgumentException">No friction of this kind gives such a loop.</exception>
    public static SpringFriction OfLoop(double amplitude, double area, double halfWidth)
    {
        Require.Positive(amplitude, "m");
        Require.Positive(area, "J");
        Require.Positive(halfWidth, "N");
        static double Share(double u) => (1 - (Math.Tanh(u) / u)) / (1 - (1 / Math.Cosh(u)));
        const double Least = 0.1, Most = 200;
        var share = area / (4 * amplitude * halfWidth);
        if (!(share > Share(Least)) || !(share < Share(Most)))
        {
            throw new ArgumentException(FormattableString.Invariant(
                $"the loop's area of {area:G4} J is {share:F3} of the rectangle of its stroke and of its width in the middle, {2 * halfWidth:G4} N; a friction that builds up with the deflection gives between {SmallLoop:F3} and 1: a longer stroke, or friction force and build-up themselves, are needed"));
        }

        var u = MathNet.Numerics.RootFinding.Brent.FindRoot(u => Share(u) - share, Least, Most, 1e-12);
        return new SpringFriction(halfWidth / (1 - (1 / Math.Cosh(u))), amplitude / u);
    }
}
