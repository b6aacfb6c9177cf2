namespace RollRide.Live.Answers;

/// <summary>A request that is not of the form that the page sends: the page is at fault, not the scenario.</summary>
/// <param name="message">What is wrong and what is accepted.</param>
public sealed class RequestFault(string message) : Exception(message);
