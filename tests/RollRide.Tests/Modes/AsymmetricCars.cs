using MathNet.Numerics.LinearAlgebra;
using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Tests.Modes;

/// <summary>
/// Half cars whose sides differ, uneven cars A to C, and two bodies on rigid tyres, the long car and the even car. The rows use (z, φ, z1, z2) with wheel 1 left; here the wheels' motion
/// is zu = (z1 + z2)/2, φu = (z1 − z2)/w, which keeps the mass matrix diagonal only for equal wheels; so the coordinates of the
/// rows are kept and hop and tramp read as wheel 1 and wheel 2.
/// </summary>
internal static class AsymmetricCars
{
    public static (LinearHalfCar Linear, double Coefficient) Of(string id, bool mirrored = false)
    {
        var row = id switch
        {
            // Bounce and pitch of a whole vehicle are the same equations: side 1 is its rear, side 2 its front. Wheels of 1 kg on tyres of
            // 1 GN/m are as good as none.
            "long car" => new Row(2120, 2120 * 1.33 * 1.33, 1.548, 1.267, 1, 1, 38e3, 35e3, 1e9, 1e9, 0, 100, 100),
            "even car" => new Row(1600, 1600 * 0.95 * 0.95, 1.6, 1.3, 1, 1, 34e3, 38e3, 1e9, 1e9, 0, 100, 100),
            "uneven car A" => new Row(420, 410, 0.70, 0.75, 53, 53, 10e3, 10e3, 200e3, 200e3, 0, 900, 900),
            "uneven car B" => new Row(420, 410, 0.70, 0.75, 53, 53, 10e3, 10e3, 200e3, 200e3, 25e3, 900, 900),
            _ => new Row(635, 250, 0.80, 0.70, 45, 50, 22e3, 25e3, 190e3, 200e3, 8e3, 1500, 1700),
        };
        return (ToLinear(row, mirrored), row.C1);
    }

    /// <summary>A body on two wheels: (mass, inertia), distances of the wheels, their springs, mass and tyres. With no wheels the body stands on the springs alone.</summary>
    public static LinearHalfCar Body(double mass, double inertia, (double B1, double B2) at, (double K1, double K2) springs, double wheel = 1, double tyre = 1e11) =>
        ToLinear(new Row(mass, inertia, at.B1, at.B2, wheel, wheel, springs.K1, springs.K2, tyre, tyre, 0, 1, 1), mirrored: false);

    /// <summary>The shape with its largest part made real: (z, φ, z1, z2).</summary>
    public static IEnumerable<double> AtWheels(Mode mode) => mode.Shape.Select(value => value.Real);

    private static LinearHalfCar ToLinear(Row row, bool mirrored)
    {
        // Seen from the other side wheel 1 is wheel 2 and roll has the other sign.
        double[] At(double z, double phi, double z1, double z2) => mirrored ? [z, -phi, z2, z1] : [z, phi, z1, z2];
        var d1 = Vector<double>.Build.Dense(At(1, row.B1, -1, 0));
        var d2 = Vector<double>.Build.Dense(At(1, -row.B2, 0, -1));
        var w = row.B1 + row.B2;
        var e = Vector<double>.Build.Dense(At(0, 1, -1 / w, 1 / w));
        var stiffness = (row.K1 * d1.OuterProduct(d1)) + (row.K2 * d2.OuterProduct(d2)) + (row.Bar * e.OuterProduct(e))
            + Matrix<double>.Build.DenseOfDiagonalArray(mirrored ? [0, 0, row.Kt2, row.Kt1] : [0, 0, row.Kt1, row.Kt2]);

        // One coefficient serves both dampers, so the second one's share is in its arm.
        double[] mass = mirrored ? [row.M, row.I, row.M2, row.M1] : [row.M, row.I, row.M1, row.M2];
        var nothing = Matrix<double>.Build;
        return new LinearHalfCar(Matrix<double>.Build.DenseOfDiagonalArray(mass), stiffness, nothing.Dense(4, 4), [d1, d2 * Math.Sqrt(row.C2 / row.C1)], mountStiffness: 0)
        {
            LateralInput = Vector<double>.Build.Dense(4),
            RoadStiffness = nothing.Dense(4, 2),
            RoadDamping = nothing.Dense(4, 2),
        };
    }

    private sealed record Row(
        double M, double I, double B1, double B2, double M1, double M2, double K1, double K2, double Kt1, double Kt2, double Bar, double C1, double C2);
}
