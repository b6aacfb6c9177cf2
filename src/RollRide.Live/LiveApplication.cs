using System.Net.WebSockets;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using RollRide.Live.Answers;

namespace RollRide.Live;

/// <summary>Every address of the page, and what stands there.</summary>
internal sealed class LiveApplication : IHttpApplication<HttpContext>, IDisposable
{
    /// <summary>How many answers are computed at once: of two pages, each with its figures, those of the file, the window and the verdict under way.</summary>
    internal const int MostComputing = 8;

    // A page takes longer silence for a server that is stopped.
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(2);

    private readonly RequestGuard _guard;
    private readonly ScenarioChanges _changes;
    private readonly OpenPages _pages;
    private readonly SemaphoreSlim _computing = new(MostComputing);
    private readonly CancellationTokenSource _stop = new();
    private readonly Dictionary<string, Func<JsonObject, CancellationToken, JsonObject>> _questions;
    private readonly Dictionary<string, (string Method, Func<HttpContext, Task> Serve)> _addresses;

    /// <summary>Makes the application.</summary>
    /// <param name="scenario">What answers.</param>
    /// <param name="token">What every address begins with.</param>
    /// <param name="changes">Changes of the scenario's files.</param>
    /// <param name="pages">Counts the pages that are open.</param>
    public LiveApplication(ILiveScenario scenario, string token, ScenarioChanges changes, OpenPages pages)
    {
        (_guard, _changes, _pages) = (new RequestGuard(token), changes, pages);
        _questions = new() { ["start"] = (_, cancellation) => scenario.Start(cancellation), ["answer"] = scenario.Answer, ["window"] = scenario.Window, ["verdict"] = scenario.Verdict, ["save"] = scenario.Save };
        _addresses = new()
        {
            ["start"] = (HttpMethods.Get, context => Reply(context, scenario.Start)),
            ["line"] = (HttpMethods.Get, Converse),
            ["events"] = (HttpMethods.Get, TellChanges),
        };
        foreach (var (name, answer) in _questions.Where(question => question.Key != "start"))
            _addresses.Add(name, (HttpMethods.Post, context => Reply(context, answer)));
        foreach (var (name, file) in PageFiles.All)
            _addresses.Add(name == PageFiles.Page ? "" : $"page/{name}", (HttpMethods.Get, context => Write(context, file)));
    }

    /// <summary>Ends the streams that are open.</summary>
    public void Stop() => _stop.Cancel();

    /// <inheritdoc/>
    public void Dispose()
    {
        _stop.Dispose();
        _computing.Dispose();
    }

    /// <inheritdoc/>
    public HttpContext CreateContext(IFeatureCollection contextFeatures) => new DefaultHttpContext(contextFeatures);

    /// <inheritdoc/>
    public void DisposeContext(HttpContext context, Exception? exception)
    {
    }

    /// <inheritdoc/>
    public async Task ProcessRequestAsync(HttpContext context)
    {
        RequestGuard.Protect(context.Response);
        try
        {
            if (!_addresses.TryGetValue(_guard.Resource(context.Request), out var address))
                throw RefusedException.NotFound();
            if (context.Request.Method != address.Method)
            {
                context.Response.Headers.Allow = address.Method;
                throw new RefusedException(StatusCodes.Status405MethodNotAllowed, $"This address is asked with {address.Method}.");
            }

            await address.Serve(context);
        }
        catch (Exception) when (context.RequestAborted.IsCancellationRequested || _stop.IsCancellationRequested)
        {
            // The page gave up and waits for nothing.
        }
#pragma warning disable CA1031 // One request that fails is told to the page; the others go on.
        catch (Exception e)
        {
            await Refuse(context, e);
        }
#pragma warning restore CA1031
    }

    private static (int Status, string Reason) RefusalOf(Exception e) => e switch
    {
        RefusedException refused => (refused.Status, refused.Message),
        RequestFault => (StatusCodes.Status400BadRequest, e.Message),
        BadHttpRequestException bad => (bad.StatusCode, e.Message),
        _ => (StatusCodes.Status500InternalServerError, $"A fault of RollRide itself, not of your input ({e.GetType().Name}: {e.Message}). Please report it with the scenario."),
    };

    private static async Task Refuse(HttpContext context, Exception e)
    {
        if (context.Response.HasStarted)
        {
            context.Abort();
            return;
        }

        (context.Response.StatusCode, var reason) = RefusalOf(e);
        await JsonBody.Write(context.Response, new JsonObject { ["error"] = reason }, context.RequestAborted);
    }

    private static Task Write(HttpContext context, PageFile file)
    {
        context.Response.ContentType = file.Type;
        context.Response.ContentLength = file.Content.Length;
        return context.Response.Body.WriteAsync(file.Content, context.RequestAborted).AsTask();
    }

    private async Task Reply(HttpContext context, Func<JsonObject, CancellationToken, JsonObject> answer)
    {
        var request = await JsonBody.Read(context.Request, context.RequestAborted);
        await Reply(context, cancellation => answer(request, cancellation));
    }

    private async Task Reply(HttpContext context, Func<CancellationToken, JsonObject> answer) =>
        await JsonBody.Write(context.Response, Compute(answer, context.RequestAborted), context.RequestAborted);

    /// <summary>Computes an answer. More at once than there are places for are refused, not queued: the page asks again with what is newest then.</summary>
    private JsonObject Compute(Func<CancellationToken, JsonObject> answer, CancellationToken cancellation)
    {
        if (!_computing.Wait(0, CancellationToken.None))
            throw new RefusedException(StatusCodes.Status429TooManyRequests, $"{MostComputing} answers are being computed; ask again.");
        try
        {
            return answer(cancellation);
        }
        finally
        {
            _computing.Release();
        }
    }

    /// <summary>Answers on a line that stays open what would else be posted, each message as soon as it is there: <c>number</c>, <c>ask</c> (an address), <c>request</c>.</summary>
    private async Task Converse(HttpContext context)
    {
        using var line = await OpenLine.Accept(context);
        using var end = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, _stop.Token);
        var answers = new List<Task>();
        try
        {
            while (await line.Receive(LiveServer.LargestRequest, end.Token) is { } message)
            {
                answers.RemoveAll(answer => answer.IsCompleted);
                answers.Add(Task.Run(() => Answer(line, message, end.Token), CancellationToken.None));
            }
        }
        finally
        {
            await end.CancelAsync();
            await Task.WhenAll(answers);
        }
    }

    private async Task Answer(OpenLine line, ReadOnlyMemory<byte> message, CancellationToken cancellation)
    {
        var reply = new JsonObject();
        try
        {
            var asked = await JsonBody.Read(message, cancellation);
            reply["number"] = Asked.Number(Asked.Member(asked, "number"), "number");
            if (!_questions.TryGetValue(Asked.Text(Asked.Member(asked, "ask"), "ask"), out var answer))
                throw RefusedException.NotFound();
            var request = Asked.Object(Asked.Member(asked, "request"), "request");
            reply["answer"] = Compute(stop => answer(request, stop), cancellation);
            reply["status"] = StatusCodes.Status200OK;
        }
#pragma warning disable CA1031 // As with a request: what fails is told to the page.
        catch (Exception e)
        {
            (var status, reply["error"]) = RefusalOf(e);
            reply["status"] = status;
        }
#pragma warning restore CA1031

        try
        {
            await line.Send(JsonBody.Written(reply), cancellation);
        }
        catch (Exception e) when (e is OperationCanceledException or WebSocketException or IOException)
        {
            // The page has gone.
        }
    }

    /// <summary>Server-sent events (HTML Living Standard, 9.2). A page that comes back after its line broke is told of the change that it missed.</summary>
    private async Task TellChanges(HttpContext context)
    {
        using var page = _pages.Open();
        using var end = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, _stop.Token);
        context.Response.ContentType = "text/event-stream; charset=utf-8";
        var told = int.TryParse(context.Request.Headers["Last-Event-ID"], out var last) ? last : _changes.Now.Count;
        await Send($"retry: 1000\nid: {told}\n\n");
        while (!end.IsCancellationRequested)
        {
            var (count, next) = _changes.Now;
            if (count != told)
            {
                told = count;
                await Send($"id: {count}\nevent: changed\ndata: {count}\n\n");
            }
            else if (await Task.WhenAny(next, Task.Delay(Heartbeat, end.Token)) != next)
            {
                await Send("event: beat\ndata: 0\n\n");
            }
        }

        async Task Send(string text)
        {
            await context.Response.Body.WriteAsync(Encoding.UTF8.GetBytes(text), end.Token);
            await context.Response.Body.FlushAsync(end.Token);
        }
    }
}
