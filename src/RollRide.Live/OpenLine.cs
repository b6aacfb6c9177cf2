using System.Buffers;
using System.Diagnostics.CodeAnalysis;
using System.Net.WebSockets;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace RollRide.Live;

/// <summary>A line between page and server that stays open (WebSocket, RFC 6455): what is asked on it costs both a fraction of a request.</summary>
/// <param name="socket">The line, once both have agreed on it.</param>
internal sealed class OpenLine(WebSocket socket) : IDisposable
{
    // RFC 6455, 1.3.
    private const string Magic = "258EAFA5-E914-47DA-95CA-C5AB0DC85B11";
    private const string Version = "13";
    private const int KeyLength = 24;

    private readonly SemaphoreSlim _sending = new(1);

    /// <summary>Agrees on a line.</summary>
    /// <exception cref="RefusedException">The request asks for none.</exception>
    [SuppressMessage("Security", "CA5350", Justification = "The protocol's handshake, which protects nothing.")]
    public static async Task<OpenLine> Accept(HttpContext context)
    {
        var (asked, answer) = (context.Request.Headers, context.Response.Headers);
        if (context.Features.Get<IHttpUpgradeFeature>() is not { IsUpgradableRequest: true } upgrade
            || !asked.Upgrade.ToString().Equals("websocket", StringComparison.OrdinalIgnoreCase)
            || asked.SecWebSocketVersion.ToString() != Version
            || asked.SecWebSocketKey.ToString() is not { Length: KeyLength } key)
        {
            throw new RefusedException(StatusCodes.Status426UpgradeRequired, $"This address is a line that stays open: WebSocket, version {Version}.");
        }

        answer.Upgrade = "websocket";
        answer.SecWebSocketAccept = Convert.ToBase64String(SHA1.HashData(Encoding.ASCII.GetBytes(key + Magic)));
        try
        {
            return new OpenLine(WebSocket.CreateFromStream(await upgrade.UpgradeAsync(), new WebSocketCreationOptions { IsServer = true }));
        }
        catch (InvalidOperationException)
        {
            throw new RefusedException(StatusCodes.Status503ServiceUnavailable, "As many pages are open as there are lines for; this one asks by requests.");
        }
    }

    /// <summary>The next message; null where the page has closed the line, or sends what is longer than a request may be.</summary>
    /// <param name="longest">The most bytes that it may have.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public async Task<ReadOnlyMemory<byte>?> Receive(int longest, CancellationToken cancellation)
    {
        var message = new ArrayBufferWriter<byte>();
        while (true)
        {
            var part = await socket.ReceiveAsync(message.GetMemory(), cancellation);
            if (part.MessageType == WebSocketMessageType.Close)
                return null;
            message.Advance(part.Count);
            if (message.WrittenCount > longest)
                return null;
            if (part.EndOfMessage)
                return message.WrittenMemory;
        }
    }

    /// <summary>Sends a message, one after the other.</summary>
    public async Task Send(ReadOnlyMemory<byte> message, CancellationToken cancellation)
    {
        await _sending.WaitAsync(cancellation);
        try
        {
            await socket.SendAsync(message, WebSocketMessageType.Text, endOfMessage: true, cancellation);
        }
        finally
        {
            _sending.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        socket.Dispose();
        _sending.Dispose();
    }
}
