using Microsoft.AspNetCore.Http;

namespace RollRide.Live;

/// <summary>A request is not served.</summary>
/// <param name="status">The status code of HTTP.</param>
/// <param name="message">Why, and what is accepted.</param>
internal sealed class RefusedException(int status, string message) : Exception(message)
{
    /// <summary>The status code of HTTP.</summary>
    public int Status { get; } = status;

    /// <summary>There is nothing at that address.</summary>
    public static RefusedException NotFound() => new(StatusCodes.Status404NotFound, "There is nothing at this address; rollride live printed the page's.");
}
