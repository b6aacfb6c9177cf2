using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;
using RollRide.Live.Answers;

namespace RollRide.Live;

/// <summary>
/// Serves the live page of one scenario on the loopback address, until the last page has closed. Kestrel alone, without the host around it: no
/// settings are read from files or the environment, and nothing is logged.
/// </summary>
internal sealed class LiveServer : IAsyncDisposable
{
    /// <summary>How often files are looked at and open pages are counted.</summary>
    public static readonly TimeSpan UsualTick = TimeSpan.FromMilliseconds(250);

    /// <summary>The most bytes that a request may have.</summary>
    public const int LargestRequest = 1_000_000;

    /// <summary>The most pages that have a line that stays open; others ask by requests.</summary>
    public const int MostLines = 32;

    private readonly KestrelServer _kestrel;
    private readonly LiveApplication _application;
    private readonly CancellationTokenSource _stop = new();

    private LiveServer(KestrelServer kestrel, LiveApplication application, Uri address, Func<CancellationToken, Task> watch)
    {
        (_kestrel, _application, Address) = (kestrel, application, address);
        Ended = watch(_stop.Token);
    }

    /// <summary>The page's address, with the token that nobody else knows.</summary>
    public Uri Address { get; }

    /// <summary>Ends when no page is open any more, or when the server is stopped.</summary>
    public Task Ended { get; }

    /// <summary>Starts a server.</summary>
    /// <param name="scenario">What answers.</param>
    /// <param name="port">The port; 0 for a free one.</param>
    /// <param name="tick">See <see cref="UsualTick"/>.</param>
    /// <exception cref="PortException">The port cannot be had.</exception>
    public static async Task<LiveServer> StartAsync(ILiveScenario scenario, int port, TimeSpan tick)
    {
        // 128 random bits.
        var token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        var (changes, pages, watch) = (new ScenarioChanges(), new OpenPages(), new FileWatch(() => scenario.Files));
        var application = new LiveApplication(scenario, token, changes, pages);
        var kestrel = new KestrelServer(
            Options.Create(Settings(port)),
            new SocketTransportFactory(Options.Create(new SocketTransportOptions()), NullLoggerFactory.Instance),
            NullLoggerFactory.Instance);
        try
        {
            await kestrel.StartAsync(application, CancellationToken.None);
        }
        catch (Exception e) when (e is IOException { InnerException: AddressInUseException } or SocketException)
        {
            kestrel.Dispose();
            application.Dispose();
            throw new PortException(port, e);
        }

        var address = new Uri(new Uri(kestrel.Features.GetRequiredFeature<IServerAddressesFeature>().Addresses.Single()), $"/{token}/");
        return new LiveServer(kestrel, application, address, Watch);

        async Task Watch(CancellationToken stopped)
        {
            using var timer = new PeriodicTimer(tick);
            while (!pages.HaveClosed && await Next(timer, stopped))
            {
                pages.CountTick();
                if (!watch.HasChanged())
                    continue;
                scenario.Reload();
                changes.Tell();
            }
        }
    }

    /// <summary>Ends open streams and stops.</summary>
    /// <param name="patience">Ends the wait for requests under way.</param>
    public async Task StopAsync(CancellationToken patience)
    {
        await _stop.CancelAsync();
        _application.Stop();
        await _kestrel.StopAsync(patience);
        await Ended;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await StopAsync(new CancellationToken(canceled: true));
        _kestrel.Dispose();
        _application.Dispose();
        _stop.Dispose();
    }

    private static async Task<bool> Next(PeriodicTimer timer, CancellationToken stopped)
    {
        try
        {
            return await timer.WaitForNextTickAsync(stopped);
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private static KestrelServerOptions Settings(int port)
    {
        var options = new KestrelServerOptions { AddServerHeader = false };
        options.Limits.MaxConcurrentConnections = 64;
        options.Limits.MaxConcurrentUpgradedConnections = MostLines;
        options.Limits.MaxRequestBodySize = LargestRequest;
        options.Limits.MaxRequestHeaderCount = 50;
        options.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
        options.Limits.MaxRequestLineSize = 4 * 1024;
        options.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(10);
        options.Listen(IPAddress.Loopback, port, listen =>
        {
            listen.Protocols = HttpProtocols.Http1;
            listen.Use(OwnUserOnly);
        });
        return options;
    }

    private static ConnectionDelegate OwnUserOnly(ConnectionDelegate next) => line =>
    {
        if (line is not { RemoteEndPoint: IPEndPoint client, LocalEndPoint: IPEndPoint server } || !LineOwner.IsAnother(client, server))
            return next(line);
        line.Abort();
        return Task.CompletedTask;
    };
}
