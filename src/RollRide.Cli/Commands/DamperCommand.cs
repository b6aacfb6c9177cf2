using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Reduces a dynamometer's record to a curve and a valving.</summary>
internal static class DamperCommand
{
    private const string CurveFile = "curve.csv";

    public static Command Create()
    {
        var files = new Argument<string[]>("file")
        {
            Description = "CSV files of a dynamometer: force–velocity points or full loops, all speeds in one file or one file per speed",
            Arity = ArgumentArity.OneOrMore,
        };
        var output = ScenarioInput.Out();
        var method = new Option<string>("--method")
        {
            Description = "how a point is taken from a loop: peak for a crank's sine, constant for a triangular movement",
            DefaultValueFactory = _ => "peak",
        };
        method.AcceptOnlyFromAmong("peak", "constant");
        var positive = new Option<string?>("--positive") { Description = "the direction in which velocity and force are positive, if the file does not say so" };
        positive.AcceptOnlyFromAmong("compression", "rebound");
        var separator = new Option<string?>("--separator") { Description = "the field separator, if the file does not give it; comma if neither does" };
        separator.AcceptOnlyFromAmong("comma", "semicolon", "tab");
        var decimals = new Option<string?>("--decimal") { Description = "the decimal sign, if the file does not give it; point if neither does" };
        decimals.AcceptOnlyFromAmong("point", "comma");
        var exclude = new Option<bool>("--exclude-outliers") { Description = "leave outliers out of the curve; they are reported either way" };
        var rounded = new Option<bool>("--rounded") { Description = "let the fitted valving have rounded knees" };
        var blowOff = new Option<bool>("--blow-off") { Description = "let the fitted valving have a blow-off" };
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("damper",
            """
            Turn a dynamometer record into a force–velocity curve that a scenario can read: separate
            friction, gas force and hysteresis, report outliers, and fit a valving with its residual.

            Example:
              rollride damper scenarios/damper-loops.csv --rounded --out damper
            """)
        {
            files, output, method, positive, separator, decimals, exclude, rounded, blowOff, noPlots, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var paths = parsed.GetRequiredValue(files);
            DampingDirection? direction = parsed.GetValue(positive) switch
            {
                "compression" => DampingDirection.Compression,
                "rebound" => DampingDirection.Rebound,
                _ => null,
            };
            var options = new DynoFileOptions
            {
                VelocityPositive = direction,
                ForcePositive = direction,
                Separator = parsed.GetValue(separator) switch { "comma" => ',', "semicolon" => ';', "tab" => '\t', _ => null },
                DecimalComma = parsed.GetValue(decimals) switch { "comma" => true, "point" => false, _ => null },
            };
            var reduction = DynoReader.Read(
                paths, options, parsed.GetValue(method) == "constant" ? DynoMethod.ConstantVelocity : DynoMethod.PeakVelocity, parsed.GetValue(exclude), cancellation);
            var fit = Fit(paths[0], reduction, parsed.GetValue(rounded), parsed.GetValue(blowOff));

            string[] sources = [.. paths.Select(path => Path.GetFileName(path))];
            var source = string.Join(", ", sources);
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                ("damper.json", writer => ReducedDamper.Write(writer, reduction, fit, sources, CurveFile)),
                [(CurveFile, writer => CurveTable.Write(writer, reduction.Curve, $"Reduced from {source}", $"RollRide {Provenance.ProgramVersion}"))],
                folder =>
                {
                    if (!parsed.GetValue(noPlots))
                        figures.AddFiles(parsed, folder, source, new OutputFile(), DamperFigures.All(reduction, fit, source), cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(folder.Summary);
            else
                DamperReport.Write(parsed.InvocationConfiguration.Output, reduction, fit, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static ValvingFit Fit(string path, DynoReduction reduction, bool rounded, bool blowOff)
    {
        try
        {
            return ValvingFit.Of(reduction.Curve.Points, rounded, blowOff);
        }
        catch (ArgumentException e)
        {
            throw new DataFileException(new DataFileFault(path, null, null, null, e.Message), e);
        }
    }
}
