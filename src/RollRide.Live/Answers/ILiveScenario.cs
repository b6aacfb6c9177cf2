using System.Text.Json.Nodes;

namespace RollRide.Live.Answers;

/// <summary>What the page asks of the scenario it shows. Every call may come from any thread, several at once.</summary>
internal interface ILiveScenario
{
    /// <summary>The scenario and the data files it names, full paths: what to watch.</summary>
    IReadOnlyList<string> Files { get; }

    /// <summary>What the page needs when it opens.</summary>
    JsonObject Start(CancellationToken cancellation);

    /// <summary>The figures of the layouts asked for.</summary>
    /// <exception cref="RequestFault">The request is malformed.</exception>
    JsonObject Answer(JsonObject request, CancellationToken cancellation);

    /// <summary>The setting window of every layout.</summary>
    /// <exception cref="RequestFault">The request is malformed.</exception>
    JsonObject Window(JsonObject request, CancellationToken cancellation);

    /// <summary>The decision over all load states.</summary>
    /// <exception cref="RequestFault">The request is malformed.</exception>
    JsonObject Verdict(JsonObject request, CancellationToken cancellation);

    /// <summary>Writes the state as a scenario beside the one shown.</summary>
    /// <exception cref="RequestFault">The request is malformed.</exception>
    JsonObject Save(JsonObject request, CancellationToken cancellation);

    /// <summary>Forgets what was read: a file changed.</summary>
    void Reload();
}
