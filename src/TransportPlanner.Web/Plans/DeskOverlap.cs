using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Plans;

/// <summary>Two transports that come upon each other, each pair once.</summary>
/// <param name="One">The one that leaves first, of those on the desk.</param>
/// <param name="Other">The other: on the desk too, or void and its air not yet renewed.</param>
/// <param name="Places">In the order in which the first enters them.</param>
internal sealed record DeskOverlap(string One, string Other, IReadOnlyList<PlaceOverlapResponse> Places)
{
    public static async Task<IReadOnlyList<DeskOverlap>> OfAsync(
        PlannerContext context, FloorPlanStore store, IReadOnlyList<DeskTransport> transports, CancellationToken cancellationToken)
    {
        List<DeskOverlap> found = [];
        HashSet<string> before = [];
        foreach (var transport in transports)
        {
            before.Add(transport.Plan.Id);
            var overlaps = (await PlanOverlaps.AddAsync(context, store, transport.Plan, cancellationToken)).Overlaps.FirstOrDefault(one => one.Route == transport.Way.Id);
            foreach (var other in overlaps?.Transports.Where(other => !before.Contains(other.PlanId)) ?? [])
            {
                // Of one that is on the desk only the way that is shown; of one that is void every way that it may have taken.
                var way = transports.FirstOrDefault(shown => shown.Plan.Id == other.PlanId)?.Way.Id;
                List<PlaceOverlapResponse> places = [.. other.Places.Where(place => way is null || place.TheirRoutes.Contains(way))];
                if (places.Count > 0)
                {
                    found.Add(new(transport.Plan.CallSign, other.CallSign, places));
                }
            }
        }

        return found;
    }

    /// <summary>How, with both call-signs.</summary>
    public string How(OverlapKind kind) => kind switch
    {
        OverlapKind.SameTime => "both at the same time",
        OverlapKind.BeforeTheirsIsFree => $"{One}, before it is free of {Other}",
        OverlapKind.BeforeOursIsFree => $"{Other}, before it is free of {One}",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No words for this kind of overlap."),
    };
}
