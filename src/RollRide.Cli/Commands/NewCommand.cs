using System.CommandLine;
using System.Text;
using System.Text.Json;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;

namespace RollRide.Cli.Commands;

/// <summary>Writes a starter scenario.</summary>
internal static class NewCommand
{
    private const string NameKey = "\"name\": ";

    // Kind, scenario, and the dynamometer runs that it reads.
    private static readonly (string Kind, string Scenario, string[] Data)[] Starters =
    [
        ("live-axle", "bump-then-corner.json", ["valley-damper-dyno.csv"]),
        ("independent", "independent-front.json", ["village-standard-dyno.csv", "village-firm-dyno.csv"]),
        ("dual-tyre", "dual-tyre.json", ["timber-axle-dyno.csv"]),
        ("pickup", "pickup.json", ["valley-damper-dyno.csv"]),
        ("van", "delivery-van.json", ["valley-damper-dyno.csv"]),
        ("four-wheel-drive", "four-wheel-drive.json", ["valley-damper-dyno.csv"]),
        ("lorry", "lorry.json", ["timber-axle-dyno.csv"]),
    ];

    public static Command Create()
    {
        var name = new Argument<string>("name") { Description = "name of the scenario and of the folder made for it" };
        name.Validators.Add(result =>
        {
            var value = result.Tokens[0].Value;
            if (value != Path.GetFileName(value) || value.Any(char.IsControl) || string.IsNullOrWhiteSpace(value) || value.StartsWith('.'))
                result.AddError($"“{value}” is not a plain name: it must not be empty, start with a dot or contain a folder.");
        });
        var kind = new Option<string>("--kind", "-k")
        {
            Description = $"what to start from: {string.Join(", ", Starters.Select(starter => starter.Kind))}",
            DefaultValueFactory = _ => Starters[0].Kind,
            HelpName = "kind",
        };
        kind.AcceptOnlyFromAmong([.. Starters.Select(starter => starter.Kind)]);
        var command = new Command("new",
            """
            Write a commented starter scenario and its dynamometer run into a new folder, for you to change.

            Example:
              rollride new my-van --kind live-axle
            """)
        {
            name, kind,
        };
        command.SetAction(parsed =>
        {
            var given = parsed.GetRequiredValue(name);
            var files = Write(given, given, parsed.GetValue(kind)!);
            var output = parsed.InvocationConfiguration.Output;
            var path = $"{given}/{given}.json";
            output.WriteLine($"Written to {given}: {string.Join(", ", files)}");
            output.WriteLine($"Next: change {path}, then");
            output.WriteLine($"  rollride check {Quoted(path)}");
            output.WriteLine($"  rollride report {Quoted(path)} --out {Quoted($"{given}/report")}");
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>Writes a starter.</summary>
    /// <param name="path">The folder to make.</param>
    /// <param name="name">Name of the scenario.</param>
    /// <param name="kind">What to start from.</param>
    /// <returns>The names of the files.</returns>
    /// <exception cref="IOException">Something stands there already, or the folder cannot be written.</exception>
    internal static IReadOnlyList<string> Write(string path, string name, string kind)
    {
        if (Path.Exists(path))
            throw new IOException($"“{path}” exists already; nothing was written. Choose another name.");
        var (_, scenario, data) = Starters.Single(starter => starter.Kind == kind);
        using var folder = new OutputFolder(path);
        folder.Add($"{name}.json", output => output.Write(Named(Text(scenario), name)));
        foreach (var file in data)
            folder.Add(file, output => output.Write(Text(file)));
        folder.Commit();
        return folder.Names;
    }

    /// <summary>The scenario under another name: its first key.</summary>
    private static string Named(string scenario, string name)
    {
        var start = scenario.IndexOf(NameKey, StringComparison.Ordinal) + NameKey.Length;
        var end = scenario.IndexOf('\n', start);
        return $"{scenario[..start]}\"{JsonEncodedText.Encode(name)}\",{scenario[end..]}";
    }

    private static string Quoted(string path) => path.Contains(' ', StringComparison.Ordinal) ? $"\"{path}\"" : path;

    private static string Text(string resource)
    {
        using var stream = typeof(NewCommand).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"The assembly lacks its {resource}.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
