using System.Text.Json.Nodes;
using RollRide.Live.Answers;

namespace RollRide.Tests.Live;

/// <summary>Answers with what it was asked: the server is tested, not what it serves.</summary>
internal sealed class ScenarioStub(params string[] files) : ILiveScenario
{
    private int _reloads;

    public IReadOnlyList<string> Files { get; } = files;

    /// <summary>How often it was told to forget.</summary>
    public int Reloads => _reloads;

    /// <summary>What computes an answer to the address <c>answer</c>.</summary>
    public Func<JsonObject, CancellationToken, JsonObject> Answering { get; init; } = (request, _) => (JsonObject)request.DeepClone();

    /// <summary>One whose answers are ready when they may go on.</summary>
    /// <param name="begun">Told of each that has begun.</param>
    /// <param name="go">Lets them go on.</param>
    public static ScenarioStub Held(CountdownEvent begun, ManualResetEventSlim go) => new()
    {
        Answering = (request, cancellation) =>
        {
            begun.Signal();
            go.Wait(cancellation);
            return (JsonObject)request.DeepClone();
        },
    };

    /// <summary>One whose answer is never ready.</summary>
    /// <param name="begun">Told that it has begun.</param>
    /// <param name="stopped">Told that it was stopped.</param>
    public static ScenarioStub Endless(TaskCompletionSource begun, TaskCompletionSource stopped) => new()
    {
        Answering = (_, cancellation) =>
        {
            begun.SetResult();
            cancellation.WaitHandle.WaitOne();
            stopped.SetResult();
            throw new OperationCanceledException(cancellation);
        },
    };

    public JsonObject Start(CancellationToken cancellation) => new() { ["file"] = "van.json" };

    public JsonObject Answer(JsonObject request, CancellationToken cancellation) => Answering(request, cancellation);

    public JsonObject Window(JsonObject request, CancellationToken cancellation) => throw new RequestFault("“state” is missing");

    public JsonObject Verdict(JsonObject request, CancellationToken cancellation) => throw new InvalidOperationException("a fault of the program");

    public JsonObject Save(JsonObject request, CancellationToken cancellation) => new() { ["saved"] = "mine.json" };

    public void Reload() => Interlocked.Increment(ref _reloads);
}
