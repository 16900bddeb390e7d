namespace TransportPlanner.Core.FloorPlans;

public enum ClosureTarget
{
    Place,
    Passage,
    Elevator,
}

/// <summary>Out of use from (inclusive) to (exclusive), by whom it was said.</summary>
public sealed record Closure(
    string Id, ClosureTarget Target, string TargetId, DateTimeOffset From, DateTimeOffset To, string Reason, string Source)
{
    public bool Overlaps(DateTimeOffset from, DateTimeOffset to) => From < to && To > from;
}
