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

    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(5);

    private readonly RequestGuard _guard;
    private readonly ScenarioChanges _changes;
    private readonly OpenPages _pages;
    private readonly SemaphoreSlim _computing = new(MostComputing);
    private readonly CancellationTokenSource _stop = new();
    private readonly Dictionary<string, (string Method, Func<HttpContext, Task> Serve)> _addresses;
    private int _asked;

    /// <summary>Makes the application.</summary>
    /// <param name="scenario">What answers.</param>
    /// <param name="token">What every address begins with.</param>
    /// <param name="changes">Changes of the scenario's files.</param>
    /// <param name="pages">Counts the pages that are open.</param>
    public LiveApplication(ILiveScenario scenario, string token, ScenarioChanges changes, OpenPages pages)
    {
        (_guard, _changes, _pages) = (new RequestGuard(token), changes, pages);
        _addresses = new()
        {
            ["start"] = (HttpMethods.Get, context => Compute(context, scenario.Start)),
            ["answer"] = Asked(scenario.Answer),
            ["window"] = Asked(scenario.Window),
            ["verdict"] = Asked(scenario.Verdict),
            ["save"] = Asked(scenario.Save),
            ["events"] = (HttpMethods.Get, TellChanges),
        };
        foreach (var (name, file) in PageFiles.All)
            _addresses.Add(name == PageFiles.Page ? "" : $"page/{name}", (HttpMethods.Get, context => Write(context, file)));

        (string, Func<HttpContext, Task>) Asked(Func<JsonObject, CancellationToken, JsonObject> answer) => (HttpMethods.Post, context => Compute(context, answer));
    }

    /// <summary>How many answers were asked for.</summary>
    public int Asked => Volatile.Read(ref _asked);

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
        catch (RefusedException e)
        {
            await Refuse(context, e.Status, e.Message);
        }
        catch (RequestFault e)
        {
            await Refuse(context, StatusCodes.Status400BadRequest, e.Message);
        }
        catch (BadHttpRequestException e)
        {
            await Refuse(context, e.StatusCode, e.Message);
        }
        catch (Exception) when (context.RequestAborted.IsCancellationRequested || _stop.IsCancellationRequested)
        {
            // The page gave up and waits for nothing.
        }
#pragma warning disable CA1031 // One request that fails is told to the page; the others go on.
        catch (Exception e)
        {
            await Refuse(context, StatusCodes.Status500InternalServerError, $"A fault of RollRide itself, not of your input ({e.GetType().Name}: {e.Message}). Please report it with the scenario.");
        }
#pragma warning restore CA1031
    }

    private static async Task Refuse(HttpContext context, int status, string reason)
    {
        if (context.Response.HasStarted)
        {
            context.Abort();
            return;
        }

        context.Response.StatusCode = status;
        await JsonBody.Write(context.Response, new JsonObject { ["error"] = reason }, context.RequestAborted);
    }

    private static Task Write(HttpContext context, PageFile file)
    {
        context.Response.ContentType = file.Type;
        context.Response.ContentLength = file.Content.Length;
        return context.Response.Body.WriteAsync(file.Content, context.RequestAborted).AsTask();
    }

    private async Task Compute(HttpContext context, Func<JsonObject, CancellationToken, JsonObject> answer)
    {
        var request = await JsonBody.Read(context.Request, context.RequestAborted);
        await Compute(context, cancellation => answer(request, cancellation));
    }

    /// <summary>Computes an answer. More at once than there are places for are refused, not queued: the page asks again with what is newest then.</summary>
    private async Task Compute(HttpContext context, Func<CancellationToken, JsonObject> answer)
    {
        Interlocked.Increment(ref _asked);
        if (!await _computing.WaitAsync(0, CancellationToken.None))
            throw new RefusedException(StatusCodes.Status429TooManyRequests, $"{MostComputing} answers are being computed; ask again.");
        JsonObject computed;
        try
        {
            computed = answer(context.RequestAborted);
        }
        finally
        {
            _computing.Release();
        }

        await JsonBody.Write(context.Response, computed, context.RequestAborted);
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
                await Send(":\n\n");
            }
        }

        async Task Send(string text)
        {
            await context.Response.Body.WriteAsync(Encoding.UTF8.GetBytes(text), end.Token);
            await context.Response.Body.FlushAsync(end.Token);
        }
    }
}
