using RollRide.DataFiles;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Reads scenario files.</summary>
public static class ScenarioReader
{
    /// <summary>Reads a scenario with every file that it names, and checks it.</summary>
    /// <param name="path">The scenario file.</param>
    /// <exception cref="DataFileException">Something is wrong; all faults found, each with file, line, key and what is accepted.</exception>
    public static Scenario Read(string path)
    {
        var document = BoundDocument.Read<ScenarioFile>(path);
        var context = new ReadingContext(document);
        var file = document.Value;

        var vehicle = VehicleReader.Read(context);
        var layouts = LayoutReader.Read(context);
        var manoeuvre = ManoeuvreReader.Read(context);
        var targets = TargetsReader.Read(context);
        if (vehicle is not null)
        {
            for (var i = 0; i < layouts.Length; i++)
            {
                if (layouts[i] is { } layout)
                    CheckTogether(context, $"layouts[{i}]", vehicle, layout);
            }
        }

        context.Faults.ThrowIfAny();
        var study = new StudyCase
        {
            Provenance = new Provenance(file.Name, Path.GetFileName(path), context.Sha256(), Provenance.ProgramVersion),
            Vehicle = vehicle!,
            Layouts = [.. layouts.Select(layout => layout!)],
            Manoeuvre = manoeuvre!,
            Solver = new IntegratorOptions
            {
                RelativeTolerance = file.Solver.RelativeTolerance,
                AbsoluteTolerance = file.Solver.AbsoluteTolerance,
                MaximumStep = file.Solver.MaximumStepMs * 1e-3,
            },
            Analysis = new AnalysisSettings(
                file.Analysis.ReferenceDamperVelocity,
                [.. file.Analysis.DamperVelocities.Distinct().Order()],
                file.Analysis.IncludeFriction),
            Targets = targets,
            HistoryRate = file.Output.RateHz,
        };
        return new Scenario(study, file.Output, [.. context.Warnings]);
    }

    /// <summary>What only vehicle and layout together can get wrong: the preload of the springs and the stability of the body.</summary>
    private static void CheckTogether(ReadingContext context, string path, HalfCar vehicle, DamperLayout layout)
    {
        var car = context.Make(path, () => new AssembledHalfCar(vehicle, layout));
        if (car is null)
            return;
        var stiffness = LinearHalfCar.AtRest(car).Stiffness;
        if (stiffness.Evd(MathNet.Numerics.LinearAlgebra.Symmetricity.Symmetric).EigenValues.Any(value => value.Real <= 0))
        {
            var moment = vehicle.Body.Mass * vehicle.Gravity * vehicle.RollArm * Units.RadPerDeg;
            context.Refuse(
                "vehicle.antiRollBar_N_m_per_deg",
                $"with layout '{layout.Name}' the body cannot stand: its weight above the roll centre takes {moment:F0} N·m per degree of roll, more than springs, bar and tyres give back; a higher roll stiffness or a lower centre of gravity is needed");
        }
    }
}
