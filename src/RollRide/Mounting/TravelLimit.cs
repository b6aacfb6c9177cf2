namespace RollRide.Mounting;

/// <summary>The end of what a linkage can reach; itself out of reach.</summary>
/// <param name="Travel">Vertical travel of the wheel centre, m, positive in bump.</param>
/// <param name="Reason">What happens there, as the end of a sentence.</param>
public sealed record TravelLimit(double Travel, string Reason);
