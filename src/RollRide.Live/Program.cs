namespace RollRide.Live;

/// <summary>The live page's server: a process of its own, started by the command <c>live</c>.</summary>
internal static class Program
{
    private static int Main() => 0;
}
