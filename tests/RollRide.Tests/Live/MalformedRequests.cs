using System.Text;

namespace RollRide.Tests.Live;

/// <summary>Makes requests that no page would send: good ones, changed.</summary>
/// <param name="address">The page's address.</param>
/// <param name="seed">The same seed gives the same requests.</param>
internal sealed class MalformedRequests(Uri address, int seed)
{
    private static readonly string[] Methods = ["GET", "POST", "HEAD", "PUT", "OPTIONS", "CONNECT", "TRACE", "get", "", "G\0T", "POST POST", new('M', 5000)];

    private static readonly string[] Resources =
        ["", "start", "answer", "window", "verdict", "save", "line", "page/live.html", "page/../..", "page/%2e%2e%2f", "%", "%ff%fe", "%00", "?", "#", "\u00e4", "answer?a=b", "answer/", new('a', 9000)];

    private static readonly string[] Versions = ["HTTP/1.1", "HTTP/1.1", "HTTP/1.1", "HTTP/1.0", "HTTP/2.0", "HTTP/9.9", "HTTP/1.1 x", "", "\0"];

    private static readonly string[] HeaderLines =
    [
        "Content-Length: -1", "Content-Length: 99999999999999999999", "Content-Length: 5", "Content-Length: 2\r\nContent-Length: 3", "Transfer-Encoding: chunked", "Transfer-Encoding: gzip, chunked",
        "Transfer-Encoding: chunked\r\nContent-Length: 4", "Host: evil.example", "Origin: null", "Expect: 100-continue", "Upgrade: websocket\r\nConnection: Upgrade",
        "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==", "Connection: keep-alive, close",
        "Content-Type: application/json; charset=utf-7", "Content-Type: \0", "Last-Event-ID: 99999999999999999999", "X:\r\n folded", ": none", "no colon", "X-\u00e4: \u00e4", "X: \u007f\u0001", "Cookie: " + new string('c', 20_000),
    ];

    private static readonly string[] Values =
    [
        "null", "true", "-0", "1e999", "1e-999", "123456789012345678901234567890", "\"\"", "\"\\u0000\"", "\"\\ud800\"", "\"../../etc/passwd\"", "\"layouts[-1]\"", "\"layouts[999999999999]\"",
        "\"layouts[0].placement.mounts.axleEnd_mm[1]\"", "\"vehicle.body.mass_kg\"", "\"a..b\"", "\"[\"", "[]", "{}", "[[],[[]]]", "{\"path\":1}", "NaN", "'", "\u0001", "[1,]", "/* */ 1",
    ];

    private static readonly string[] Keys = ["id", "state", "edits", "files", "path", "value", "remove", "name", "rows", "layouts", "load", "parts", "overwrite", "__proto__", "", "state"];

    private readonly Random _random = new(seed);

    /// <summary>The next request.</summary>
    public byte[] Next()
    {
        var body = Bytes(Body());
        var isChunked = Maybe(0.1);
        var head = new StringBuilder()
            .Append(Maybe(0.2) ? Any(Methods) : Maybe(0.7) ? "POST" : "GET").Append(' ')
            .Append(Maybe(0.1) ? Any(["*", "/", "http://evil.example/", "//", address.AbsolutePath.ToUpperInvariant()]) : address.AbsolutePath)
            .Append(Any(Resources)).Append(' ').Append(Maybe(0.9) ? "HTTP/1.1" : Any(Versions)).Append("\r\n");
        if (Maybe(0.95))
            head.Append("Host: ").Append(address.Authority).Append("\r\n");
        if (Maybe(0.9))
            head.Append("Content-Type: application/json\r\n");
        if (Maybe(0.85))
            head.Append(isChunked ? "Transfer-Encoding: chunked\r\n" : $"Content-Length: {(Maybe(0.9) ? body.Length : _random.Next(2 * body.Length + 5))}\r\n");
        for (var i = _random.Next(3) - 1; i > 0; i--)
            head.Append(Any(HeaderLines)).Append("\r\n");
        head.Append(Maybe(0.95) ? "\r\n" : "\n");
        if (isChunked)
            head.Append(Maybe(0.8) ? $"{body.Length:x}\r\n" : Any(["-1\r\n", "ffffffffffffffffff\r\n", "x\r\n", "\r\n"]));
        byte[] request = [.. Bytes(head.ToString()), .. body, .. Bytes(isChunked && Maybe(0.8) ? "\r\n0\r\n\r\n" : "")];
        if (Maybe(0.1))
            request = request[.._random.Next(request.Length)];
        for (var i = Maybe(0.1) ? _random.Next(5) : 0; i > 0 && request.Length > 0; i--)
            request[_random.Next(request.Length)] = (byte)_random.Next(256);
        return request;
    }

    /// <summary>The next message on an open line.</summary>
    public byte[] NextMessage()
    {
        var message = Bytes(Maybe(0.2) ? Body() : $"{{\"number\":{(Maybe(0.9) ? "1" : Any(Values))},\"ask\":\"{Any(Resources)}\",\"request\":{Body()}}}");
        for (var i = Maybe(0.1) ? _random.Next(5) : 0; i > 0 && message.Length > 0; i--)
            message[_random.Next(message.Length)] = (byte)_random.Next(256);
        return message;
    }

    private string Body() => Maybe(0.1) ? new string('[', _random.Next(3000)) : Maybe(0.05) ? Any(Values) : Json(4);

    private string Json(int depth)
    {
        if (depth == 0 || Maybe(0.2))
            return Any(Values);
        var members = Enumerable.Range(0, _random.Next(4)).ToArray();
        return Maybe(0.7)
            ? $"{{{string.Join(',', members.Select(_ => $"\"{Any(Keys)}\":{Json(depth - 1)}"))}}}"
            : $"[{string.Join(',', members.Select(_ => Json(depth - 1)))}]";
    }

    private bool Maybe(double share) => _random.NextDouble() < share;

    private string Any(string[] among) => among[_random.Next(among.Length)];

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
