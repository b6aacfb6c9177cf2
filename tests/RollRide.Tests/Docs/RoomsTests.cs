using System.Text.RegularExpressions;

namespace RollRide.Tests.Docs;

/// <summary>Every folder of the sources uses what its row in DEVELOPERS.md allows and nothing else, so that no two folders use each other, directly or round a corner.</summary>
public sealed partial class RoomsTests
{
    // A row may name this instead of a list.
    private const string AllAbove = "all above";

    private const string Library = "RollRide";

    /// <summary>Whose folders go by their name alone.</summary>
    private static readonly string[] Libraries = [Library, "RollRide.Files"];

    private static readonly List<(string Room, HashSet<string> MayUse)> Table = ReadTable();

    private static readonly ILookup<string, string> Sources = Directory
        .EnumerateFiles(Path.Combine(Document.Root, "src"), "*.cs", SearchOption.AllDirectories)
        .Where(file => !Path.GetRelativePath(Document.Root, file).Split(Path.DirectorySeparatorChar).Intersect(["obj", "bin"]).Any())
        .ToLookup(file => RoomOfFolder(Path.GetDirectoryName(Path.GetRelativePath(Path.Combine(Document.Root, "src"), file))!));

    /// <summary>The rooms in which a type of a name is declared: two rooms may each have one.</summary>
    private static readonly ILookup<string, string> RoomsOfTypes =
        (from room in Sources
         from file in room
         from Match type in Declaration().Matches(File.ReadAllText(file))
         select (Name: type.Groups[1].Value, Room: room.Key)).Distinct().ToLookup(type => type.Name, type => type.Room);

    [Fact]
    public void Every_folder_of_the_sources_has_a_row_and_every_row_a_folder() =>
        Assert.Equal(Sources.Select(room => room.Key).Order(StringComparer.Ordinal), Table.Select(row => row.Room).Order(StringComparer.Ordinal));

    [Fact] // So a circle cannot even be allowed.
    public void Every_row_allows_only_what_stands_above_it()
    {
        for (var i = 0; i < Table.Count; i++)
            Assert.Subset(Table.Take(i).Select(row => row.Room).ToHashSet(), Table[i].MayUse);
    }

    [Fact]
    public void Every_folder_uses_only_what_its_row_allows()
    {
        var allowed = Table.ToDictionary(row => row.Room, row => row.MayUse);
        var offences =
            from room in Sources
            from file in room
            from used in Uses(room.Key, File.ReadAllText(file))
            where !allowed[room.Key].Contains(used)
            select $"{Path.GetRelativePath(Document.Root, file)} uses {used}";
        Assert.Empty(offences.Distinct());
    }

    [Theory] // The search itself finds each way of using another room.
    [InlineData("using RollRide.Vehicle;", "Vehicle")]
    [InlineData("using static RollRide.Vehicle.HalfCar;", "Vehicle")]
    [InlineData("using Car = RollRide.Vehicle.HalfCar;", "Vehicle")]
    [InlineData("using RollRide.Plots.Figures;", "RollRide.Plots/Figures")]
    [InlineData("var g = Vehicle.HalfCar.StandardGravity;", "Vehicle")]
    [InlineData("var g = RollRide.Vehicle.HalfCar.StandardGravity;", "Vehicle")]
    [InlineData("var f = Figures.MountsFigure.Build(study);", "RollRide.Plots/Figures")]
    public void Use_of_another_folder_is_found(string source, string used) => Assert.Contains(used, Uses("RollRide.Plots", source));

    [Theory] // A namespace within another sees its types without naming it.
    [InlineData("figure = new Figure();", true)]
    [InlineData("// A figure has a Figure.", false)]
    public void Use_of_the_folder_above_is_found(string source, bool isUsed) => Assert.Equal(isUsed, Uses("RollRide.Plots/Figures", source).Contains("RollRide.Plots"));

    private static HashSet<string> Uses(string room, string source)
    {
        var uses = new HashSet<string>();
        foreach (Match import in Import().Matches(source))
            uses.Add(RoomOfNamespace(import.Groups[1].Value));
        foreach (Match name in QualifiedName().Matches(source))
            uses.UnionWith(RoomsOfTypes[name.Groups[2].Value].Where(declaring => declaring.Split('/', '.')[^1] == name.Groups[1].Value));
        if (room.IndexOf('/', StringComparison.Ordinal) is > 0 and var end && Name().Matches(Comment().Replace(source, "")).Any(name => RoomsOfTypes[name.Value].Contains(room[..end])))
            uses.Add(room[..end]);
        uses.Remove(room);
        return uses;
    }

    /// <summary>The room of a namespace, or, of a type's full name, that of its namespace.</summary>
    private static string RoomOfNamespace(string name) => Table.Select(row => row.Room)
        .Where(room => (name + ".").StartsWith(NamespaceOf(room) + ".", StringComparison.Ordinal))
        .MaxBy(room => NamespaceOf(room).Length) ?? name;

    private static string NamespaceOf(string room) => room.StartsWith(Library, StringComparison.Ordinal) ? room.Replace('/', '.') : $"{Library}.{room}";

    private static string RoomOfFolder(string folder)
    {
        var room = folder.Replace('\\', '/');
        return Libraries.FirstOrDefault(library => room.StartsWith(library + "/", StringComparison.Ordinal)) is { } library ? room[(library.Length + 1)..] : room;
    }

    private static List<(string Room, HashSet<string> MayUse)> ReadTable()
    {
        var rows = new List<(string Room, HashSet<string> MayUse)>();
        var lines = Document.Read("DEVELOPERS.md").Text.Split('\n').SkipWhile(line => !line.StartsWith("| folder | what | may use |", StringComparison.Ordinal)).Skip(2);
        foreach (var cells in lines.TakeWhile(line => line.StartsWith('|')).Select(line => line.Trim('|').Split(" | ", StringSplitOptions.TrimEntries)))
        {
            var named = Quoted().Matches(cells[2]).Select(name => name.Groups[1].Value);
            var above = rows.Select(row => row.Room);
            rows.Add((Quoted().Match(cells[0]).Groups[1].Value, [.. cells[2].StartsWith(AllAbove, StringComparison.Ordinal) ? above.Except(named) : named]));
        }

        return rows;
    }

    [GeneratedRegex("`([^`]+)`")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"^\s*using (?:static )?(?:\w+ = )?(RollRide[\w.]*);", RegexOptions.Multiline)]
    private static partial Regex Import();

    [GeneratedRegex(@"\b([A-Z]\w*)(?=\.([A-Z]\w*))")]
    private static partial Regex QualifiedName();

    [GeneratedRegex(@"(?<![\w.])[A-Z]\w*")]
    private static partial Regex Name();

    [GeneratedRegex("//.*")]
    private static partial Regex Comment();

    [GeneratedRegex(@"^(?:public |internal )?(?:(?:static|sealed|abstract|readonly|partial|ref) )*(?:record struct|record|class|struct|interface|enum) (\w+)", RegexOptions.Multiline)]
    private static partial Regex Declaration();
}
