using System.CommandLine.Parsing;
using System.Globalization;

namespace RollRide.Cli.Commands;

/// <summary>Numbers on the command line: with a decimal point whatever the machine's language, and within limits.</summary>
internal static class Number
{
    /// <summary>Reads a number; null after a fault has been noted.</summary>
    public static double? Parse(ArgumentResult result, double lowest, double highest)
    {
        if (double.TryParse(result.Tokens[0].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value >= lowest && value <= highest
            && (result.Argument.ValueType != typeof(int) || value == Math.Floor(value)))
        {
            return value;
        }

        var kind = result.Argument.ValueType == typeof(int) ? "whole number" : "number";
        result.AddError(string.Create(CultureInfo.InvariantCulture, $"{(result.Parent is OptionResult { IdentifierToken.Value: var option } ? $"{option}: " : "")}“{result.Tokens[0].Value}” is not accepted; a {kind} from {lowest} to {highest} is expected."));
        return null;
    }
}
