namespace RollRide.Live.Answers;

/// <summary>A request that the page would not have made: it is no state, or names what there is not.</summary>
/// <param name="message">What is wrong, and what is accepted.</param>
internal sealed class RequestFault(string message) : Exception(message);
