using System.Globalization;
using System.Reflection;
using System.Reflection.Emit;
using System.Runtime.CompilerServices;
using System.Text;

namespace RollRide.Tests;

/// <summary>
/// Nothing is formatted or read by the culture of the machine: not where the build is invariant either, since a build for another
/// place need not be. Looked for in the code that the compiler made, where every number put into a text shows.
/// </summary>
public sealed class FormattedByCultureTests
{
    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!).ToDictionary(code => code.Value);

    private static readonly HashSet<Type> Numbers = [typeof(double), typeof(float), typeof(decimal), typeof(double?), typeof(float?), typeof(DateTime), typeof(DateTimeOffset)];

    // The solver refuses what only a programmer can give it, in words that no user meets.
    private static readonly string[] Solver = ["RollRide.Numerics", "RollRide.Dynamics"];

    [Theory]
    [InlineData(typeof(RollRide.Vehicle.HalfCar))]
    [InlineData(typeof(RollRide.Plots.Figure))]
    [InlineData(typeof(RollRide.Report.ReportPage))]
    [InlineData(typeof(RollRide.Cli.CommandLine))]
    public void Assembly_formats_no_number_by_culture(Type inAssembly) =>
        Assert.True(Offenders(inAssembly.Assembly.GetTypes().Where(type => !Solver.Any(place => type.Namespace?.StartsWith(place, StringComparison.Ordinal) == true))).ToArray() is var found && found.Length == 0, string.Join('\n', found));

    // The search itself finds each kind of place.
    [Fact]
    public void Search_finds_what_is_formatted_by_culture()
    {
        string[] wrong = [nameof(Samples.Interpolated), nameof(Samples.Nested), nameof(Samples.ToText), nameof(Samples.Read)];
        Assert.Equal(wrong.Select(name => $"{typeof(Samples).FullName}.{name}"), Offenders([typeof(Samples)]).Select(offender => offender.Split(' ')[0]).Distinct());
    }

    private static IEnumerable<string> Offenders(IEnumerable<Type> types)
    {
        const BindingFlags all = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;
        foreach (var type in types)
        {
            foreach (var method in type.GetMethods(all).Concat<MethodBase>(type.GetConstructors(all)))
            {
                if (method.GetMethodBody()?.GetILAsByteArray() is not { } code)
                    continue;
                foreach (var called in ByCulture(Called(method, code)))
                    yield return $"{type.FullName}.{method.Name} {called.DeclaringType!.Name}.{called.Name}";
            }
        }
    }

    /// <summary>Of the methods called in order, those that format or read a number by culture.</summary>
    private static IEnumerable<MethodBase> ByCulture(IEnumerable<MethodBase> calls)
    {
        // Whether each text being put together, the innermost last, was begun with a culture.
        var begun = new Stack<bool>();
        foreach (var called in calls)
        {
            var type = called.DeclaringType!;
            var parameters = called.GetParameters().Select(parameter => parameter.ParameterType).ToArray();
            if (IsHandler(type) && called is ConstructorInfo)
                begun.Push(parameters.Contains(typeof(IFormatProvider)));
            else if (IsHandler(type) && called is { Name: nameof(DefaultInterpolatedStringHandler.AppendFormatted), IsGenericMethod: true } && Numbers.Contains(called.GetGenericArguments()[0]))
            {
                if (begun.TryPeek(out var withCulture) && !withCulture)
                    yield return called;
            }
            else if (called.Name == nameof(DefaultInterpolatedStringHandler.ToStringAndClear) || parameters.Any(parameter => parameter.IsByRef && IsHandler(parameter.GetElementType()!)))
                begun.TryPop(out _);
            else if (!parameters.Contains(typeof(IFormatProvider)) && TakesOrIsNumber(called, type, parameters))
                yield return called;
        }
    }

    private static bool IsHandler(Type type) => type == typeof(DefaultInterpolatedStringHandler) || type == typeof(StringBuilder.AppendInterpolatedStringHandler);

    private static bool TakesOrIsNumber(MethodBase called, Type type, Type[] parameters) => called.Name switch
    {
        nameof(double.ToString) or nameof(double.Parse) or nameof(double.TryParse) => Numbers.Contains(type),
        nameof(TextWriter.Write) or nameof(TextWriter.WriteLine) => typeof(TextWriter).IsAssignableFrom(type) && parameters is [var written] && Numbers.Contains(written),
        nameof(StringBuilder.Append) => type == typeof(StringBuilder) && parameters is [var appended] && Numbers.Contains(appended),
        _ => false,
    };

    private static IEnumerable<MethodBase> Called(MethodBase method, byte[] code)
    {
        var typeArguments = method.DeclaringType is { IsGenericType: true } generic ? generic.GetGenericArguments() : null;
        var methodArguments = method.IsGenericMethod ? method.GetGenericArguments() : null;
        for (var at = 0; at < code.Length;)
        {
            var value = code[at] == 0xFE ? (short)(0xFE00 | code[at + 1]) : code[at];
            var operation = Codes[value];
            at += operation.Size;
            if (operation.OperandType == OperandType.InlineMethod && method.Module.ResolveMethod(BitConverter.ToInt32(code, at), typeArguments, methodArguments) is { } called)
                yield return called;
            at += operation.OperandType switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(code, at)),
                _ => 4,
            };
        }
    }

    private static class Samples
    {
#pragma warning disable CA1305 // What these do wrong is to be found.
        public static string Interpolated(double number) => $"{number:F1} m";

        public static string Nested(double number) => FormattableString.Invariant($"{number} {(number > 0 ? $"{number:F1}" : "")}");

        public static string ToText(double number) => number.ToString("F1");

        public static double Read(string text) => double.Parse(text);
#pragma warning restore CA1305

        public static string Invariant(double number) => string.Create(CultureInfo.InvariantCulture, $"{number:F1} m {number.ToString(CultureInfo.InvariantCulture)}");

        public static string Formattable(double number) => FormattableString.Invariant($"{number:F1} m");
    }
}
