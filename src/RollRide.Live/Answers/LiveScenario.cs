using System.Text.Json.Nodes;

namespace RollRide.Live.Answers;

/// <summary>Holds the place until the answers come.</summary>
internal sealed class LiveScenario(string path) : ILiveScenario
{
    public IReadOnlyList<string> Files { get; } = [Path.GetFullPath(path)];

    public JsonObject Start(CancellationToken cancellation) => new() { ["file"] = Path.GetFileName(path) };

    public JsonObject Answer(JsonObject request, CancellationToken cancellation) => throw new RequestFault("no answers yet");

    public JsonObject Window(JsonObject request, CancellationToken cancellation) => throw new RequestFault("no answers yet");

    public JsonObject Verdict(JsonObject request, CancellationToken cancellation) => throw new RequestFault("no answers yet");

    public JsonObject Save(JsonObject request, CancellationToken cancellation) => throw new RequestFault("no answers yet");

    public void Reload()
    {
    }
}
