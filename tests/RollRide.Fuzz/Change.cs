namespace RollRide.Fuzz;

/// <summary>One change of an input. It does nothing where its place is gone, so that any of several changes can be left out.</summary>
/// <param name="What">The change in words.</param>
/// <param name="Apply">Makes it.</param>
internal sealed record Change(string What, Action<CaseInput> Apply);
