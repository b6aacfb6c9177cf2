using System.Net;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;

namespace RollRide.Live;

/// <summary>
/// Lets in only the page itself. A foreign page open in the same browser can send requests here too: it does not know the token, its requests carry
/// another origin, and a name of its own that it leads to this address stands in <c>Host</c>.
/// </summary>
/// <param name="token">What the address holds and nobody else knows.</param>
internal sealed class RequestGuard(string token)
{
    private const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; font-src 'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'";

    private readonly byte[] _token = Encoding.ASCII.GetBytes(token);

    /// <summary>Tells a browser what the page may do, whatever the answer.</summary>
    public static void Protect(HttpResponse response)
    {
        response.Headers.ContentSecurityPolicy = Policy;
        response.Headers.XContentTypeOptions = "nosniff";
        response.Headers.CacheControl = "no-store";
        response.Headers["Referrer-Policy"] = "no-referrer";
        response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
        response.Headers["Cross-Origin-Opener-Policy"] = "same-origin";
    }

    /// <summary>What is asked for: the path behind the token.</summary>
    /// <exception cref="RefusedException">The request comes from elsewhere, or does not know the token.</exception>
    public string Resource(HttpRequest request)
    {
        var port = request.HttpContext.Connection.LocalPort;
        if (request.Host.Host != IPAddress.Loopback.ToString() || (request.Host.Port ?? 80) != port)
            throw new RefusedException(StatusCodes.Status403Forbidden, "The page has one address, with the loopback address and the port that rollride live printed.");
        if (request.Headers.Origin is [_, ..] origin && origin != $"http://{request.Host}")
            throw new RefusedException(StatusCodes.Status403Forbidden, "Only the page itself may ask.");
        if (request.Headers["Sec-Fetch-Site"] is [_, ..] site && site != "same-origin" && site != "none")
            throw new RefusedException(StatusCodes.Status403Forbidden, "Only the page itself may ask.");
        if (request.Path.Value is not ['/', .. var path] || path.IndexOf('/', StringComparison.Ordinal) is not (>= 0 and var end)
            || !CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(path[..end]), _token))
        {
            throw RefusedException.NotFound();
        }

        return path[(end + 1)..];
    }
}
