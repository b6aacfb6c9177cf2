using RollRide.Damping;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>
/// What a dynamometer file says about itself in the comment lines above its header, as <c># key: value</c>: which direction is positive, what
/// separates fields, how decimals are written. Other comments are free text.
/// </summary>
internal sealed record DynoDeclarations
{
    private const string Positive = "positive", VelocityKey = "velocityPositive", ForceKey = "forcePositive", SeparatorKey = "separator", DecimalKey = "decimal";

    public DampingDirection? VelocityPositive { get; private init; }

    public DampingDirection? ForcePositive { get; private init; }

    public char? Separator { get; private init; }

    public bool? DecimalComma { get; private init; }

    /// <summary>The header's line as text, and its number.</summary>
    public (string Text, int Line) Header { get; private init; } = ("", 1);

    /// <summary>Reads the declarations and joins them with what the user says; the two may not contradict each other.</summary>
    public static DynoDeclarations Read(string path, DynoFileOptions options, CancellationToken cancellation)
    {
        var faults = new FaultList();
        var said = new DynoDeclarations();
        int number = 0;
        using var file = new StreamReader(InputFile.Open(path, cancellation));
        while (file.ReadLine() is { } line)
        {
            number++;
            var text = line.Trim();
            if (text.Length == 0)
                continue;
            if (text[0] != '#')
            {
                said = said with { Header = (text, number) };
                break;
            }

            if (text.TrimStart('#').Split(':', 2, StringSplitOptions.TrimEntries) is [var key, var value])
                said = said.With(key, value, reason => faults.Add(new DataFileFault(path, number, key, value, reason)));
        }

        faults.ThrowIfAny();
        return new DynoDeclarations
        {
            VelocityPositive = Joined(path, VelocityKey, options.VelocityPositive, said.VelocityPositive),
            ForcePositive = Joined(path, ForceKey, options.ForcePositive, said.ForcePositive),
            Separator = Joined(path, SeparatorKey, options.Separator, said.Separator),
            DecimalComma = Joined(path, DecimalKey, options.DecimalComma, said.DecimalComma),
            Header = said.Header,
        };
    }

    private DynoDeclarations With(string key, string value, Action<string> refuse)
    {
        switch (key)
        {
            case Positive:
                var both = Direction(value, refuse);
                return this with { VelocityPositive = both, ForcePositive = both };
            case VelocityKey:
                return this with { VelocityPositive = Direction(value, refuse) };
            case ForceKey:
                return this with { ForcePositive = Direction(value, refuse) };
            case SeparatorKey:
                return this with { Separator = Named(value, refuse, ("comma", ','), ("semicolon", ';'), ("tab", '\t')) };
            case DecimalKey:
                return this with { DecimalComma = Named(value, refuse, ("comma", true), ("point", false)) };
            default:
                return this;
        }
    }

    private static DampingDirection? Direction(string value, Action<string> refuse) =>
        Named(value, refuse, ("compression", DampingDirection.Compression), ("rebound", DampingDirection.Rebound));

    private static T? Named<T>(string value, Action<string> refuse, params (string Name, T Value)[] accepted)
        where T : struct
    {
        foreach (var (name, meaning) in accepted)
        {
            if (value == name)
                return meaning;
        }

        refuse($"accepted: {string.Join(", ", accepted.Select(a => a.Name))}");
        return null;
    }

    private static T? Joined<T>(string path, string key, T? user, T? file)
        where T : struct
    {
        if (user is { } one && file is { } other && !one.Equals(other))
            throw new DataFileException(new DataFileFault(path, null, key, null, "the file and the command line disagree"));
        return user ?? file;
    }
}
