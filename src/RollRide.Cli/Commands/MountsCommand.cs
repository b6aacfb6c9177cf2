using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Shows motion ratios and lengths of the dampers over the travel.</summary>
internal static class MountsCommand
{
    public static Command Create() => new StudyCommand<MountsResult>
    {
        Name = "mounts",
        Description =
            """
            Show how each layout's damper moves over the whole travel in heave and in roll: motion ratios, lengths, and the
            stroke left in the damper; with a linkage also camber and roll centre. Writes mounts.json, mounts.csv and figures.

            Example:
              rollride mounts scenarios/bump-then-corner.json --out results
            """,
        Run = Run,
        WriteSummary = MountsSummary.Write,
        Tables = [("mounts.csv", MountsTable.Write)],
        Figures = MountsFigures.All,
        Report = Write,
    }.Create();

    private static MountsResult Run(StudyCase study, CancellationToken cancellation) => study.Vehicle.Envelope is not null
        ? MountsStudy.Run(study)
        : throw new DataFileException(new DataFileFault(study.Provenance.File, null, "vehicle.travel", null, "this key is missing: the travel in mm and deg; without it, bump and rebound stops must be given that both heave and roll reach"));

    private static void Write(TextWriter output, IReadOnlyList<MountsResult> states, WrittenFolder folder)
    {
        var study = states[0].Study;
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        if (study.Load is null)
            WriteTravel(output, states[0]);
        StudyReport.WriteStates(output, states, result => result.Study, result => WriteTables(output, result), MountsConclusions.Of);
        StudyReport.WriteEnd(output, folder);
    }

    private static void WriteTables(TextWriter output, MountsResult result)
    {
        if (result.Study.Load is not null)
            WriteTravel(output, result);
        var table = new TextTable("Layout", "heave ratio at rest", "heave ratio over the travel", "roll ratio at rest", "roll ratio over the travel", "length [mm]", "shortest [mm]", "longest [mm]", "left closed [mm]", "left extended [mm]");
        foreach (var mounts in result.Layouts)
        {
            table.Add(
                mounts.Name,
                TextTable.Number(mounts.Fitting.HeaveRatio, 3), Range(mounts.InHeave.Select(p => p.HeaveRatio)),
                TextTable.Number(mounts.Fitting.RollRatio, 3), Range(mounts.InRoll.Select(p => p.RollRatio)),
                TextTable.Number(Unit.Millimetre.Of(mounts.Length), 1), TextTable.Number(Unit.Millimetre.Of(mounts.Length - mounts.Shortest.Compression), 1), TextTable.Number(Unit.Millimetre.Of(mounts.Length - mounts.Longest.Compression), 1),
                TextTable.Number(Unit.Millimetre.Of(mounts.ClosedReserve), 1), TextTable.Number(Unit.Millimetre.Of(mounts.ExtendedReserve), 1));
        }

        table.Write(output);
        foreach (var (layout, names) in ByTravel(result))
            WriteLinkage(output, result, layout, names);
    }

    private static void WriteTravel(TextWriter output, MountsResult result)
    {
        foreach (var (layout, names) in ByTravel(result))
            output.WriteLine($"Travel{names}: {TravelWords.Of(layout.Travel)}");
    }

    /// <summary>One layout for each printed set of remaining travels, with the names of the layouts that share it; no names where all do.</summary>
    private static IEnumerable<(LayoutMounts Layout, string Names)> ByTravel(MountsResult result)
    {
        var groups = result.Layouts.GroupBy(mounts => TravelWords.Of(mounts.Travel)).ToArray();
        return groups.Select(group => (group.First(), groups.Length == 1 ? "" : $" with {string.Join(", ", group.Select(mounts => $"“{mounts.Name}”"))}"));
    }

    private static void WriteLinkage(TextWriter output, MountsResult result, LayoutMounts mounts, string names)
    {
        if (mounts.Linkage.IsEmpty)
            return;
        const int every = 5;
        output.WriteLine();
        if (names.Length > 0)
            output.WriteLine($"Wheel{names}");
        var table = new TextTable("Wheel travel [mm]", "camber [deg]", "toe [deg]", "half-track change [mm]", "roll centre height [mm]", "instant centre y [mm]", "z [mm]");
        foreach (var wheel in mounts.Linkage.Where((_, i) => i % every == 0))
        {
            table.Add(
                TextTable.Number(Unit.Millimetre.Of(wheel.Travel), 1), TextTable.Number(Unit.Degree.Of(wheel.Camber), 2), TextTable.Number(MountsSummary.Toe(result.Study.Vehicle, wheel), 2),
                TextTable.Number(Unit.Millimetre.Of(wheel.Contact.Y - result.Study.Vehicle.HalfTrack), 2), TextTable.Number(Unit.Millimetre.Of(wheel.RollCentreHeight), 1),
                TextTable.Number(Unit.Millimetre.Of(wheel.InstantCentre?.Y), 0), TextTable.Number(Unit.Millimetre.Of(wheel.InstantCentre?.Z), 0));
        }

        table.Write(output);
    }

    private static string Range(IEnumerable<double> values) => $"{TextTable.Number(values.Min(), 3)} to {TextTable.Number(values.Max(), 3)}";
}
