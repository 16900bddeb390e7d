using Microsoft.Extensions.Caching.Memory;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>
/// Where a plan comes upon the other plans in force of its site. Never stored with a plan, which does not change: looked at anew for each answer, so that
/// the plan made first says it too.
/// </summary>
internal static class PlanOverlaps
{
    /// <summary>How far departures may lie apart. Longer airing than that is no longer two transports at once.</summary>
    private static readonly TimeSpan Reach = TimeSpan.FromHours(24);

    /// <summary>How long a wait is offered, as long as a departure window may be.</summary>
    private const int MostMinutesLater = 180;

    /// <summary>As many other transports as are looked at, those nearest in departure: more at once than that is no day that a sheet can help.</summary>
    internal const int MostOthers = 20;

    // A version never changes, so its windows are worked out once.
    private static readonly MemoryCache Known = new(new MemoryCacheOptions { SizeLimit = 500 });

    /// <summary>Another transport, reduced to what decides whether it is met.</summary>
    private sealed record Other(string Id, string CallSign, int Version, DateTimeOffset DepartAt, IReadOnlyList<(string Route, IReadOnlyList<PlaceWindow> Windows)> Ways);

    /// <summary>The plan with its overlaps, as of the plans that are in force now.</summary>
    public static async Task<PlanResponse> AddAsync(PlannerContext context, FloorPlanStore store, PlanResponse plan, CancellationToken cancellationToken)
    {
        var departure = plan.Routes.DepartAt;
        var near = (await PlansInForce.KeysAsync(context, plan.SiteId, departure - Reach, departure + Reach, cancellationToken))
            .Where(other => other.Id != plan.Id && (other.DepartAt - departure).Duration() < Reach)
            .OrderBy(other => (other.DepartAt - departure).Duration()).ThenBy(other => other.Id, StringComparer.Ordinal)
            .ToList();
        if (near.Count == 0)
        {
            return plan;
        }

        var settings = await SiteSettings.ReadAsync(context, plan.SiteId, cancellationToken);
        var airedFor = settings.Get(SiteSettings.PlacesClosedFor);
        var others = await ReadAsync(context, [.. near.Take(MostOthers)], airedFor, cancellationToken);
        var names = store.TryFind(plan.SiteId, out var site) ? site.Plan.Places.ToDictionary(place => place.Number, place => place.Name) : [];
        return plan with
        {
            Overlaps = Of(plan, others, airedFor, names),
            Cautions = near.Count <= MostOthers ? plan.Cautions
                : [.. plan.Cautions, $"{near.Count} other plans leave within 24 hours of this one. Only the {MostOthers} nearest in departure are looked at for overlaps: ask security about the rest."],
        };
    }

    /// <summary>One entry for each way of the plan that comes upon another transport, in the order of the ways.</summary>
    /// <param name="plan">The plan that is looked at.</param>
    /// <param name="others">The other transports, by departure.</param>
    /// <param name="airedFor">Precautions after which the site keeps people out until the air is renewed.</param>
    /// <param name="names">Names of places by their numbers.</param>
    public static IReadOnlyList<RouteOverlapsResponse> Of(
        PlanResponse plan, IReadOnlyList<PlanResponse> others, PrecautionSet airedFor, IReadOnlyDictionary<string, string> names) =>
        Of(plan, [.. others.Select(other => Reduced(other, airedFor))], airedFor, names);

    private static IReadOnlyList<RouteOverlapsResponse> Of(
        PlanResponse plan, IReadOnlyList<Other> others, PrecautionSet airedFor, IReadOnlyDictionary<string, string> names)
    {
        List<IReadOnlyList<PlaceWindow>> everyWay = [.. others.SelectMany(other => other.Ways.Select(way => way.Windows))];
        var ours = WindowsByWay(plan, airedFor)
            .Select(way => (way.Route, way.Windows, Transports: others.Select(other => Meeting(way.Windows, other, names)).OfType<TransportOverlapResponse>().ToList()))
            .ToList();
        List<string> clear = [.. ours.Where(way => way.Transports.Count == 0).Select(way => way.Route)];
        return
        [
            .. ours.Where(way => way.Transports.Count > 0).Select(way => new RouteOverlapsResponse
            {
                Route = way.Route,
                Transports = way.Transports,
                LeaveLaterMinutes = Overlap.MinutesLater(way.Windows, everyWay, MostMinutesLater),
                ClearRoutes = clear,
            }),
        ];
    }

    /// <summary>By departure, then by id; read from the database only where a version was not seen before.</summary>
    private static async Task<IReadOnlyList<Other>> ReadAsync(
        PlannerContext context, IReadOnlyList<PlanKey> keys, PrecautionSet airedFor, CancellationToken cancellationToken)
    {
        var found = keys.Select(key => Known.TryGetValue((key.Id, key.Version, airedFor), out var known) ? (Other)known! : null).OfType<Other>().ToList();
        var missing = keys.Where(key => found.TrueForAll(other => other.Id != key.Id)).ToList();
        foreach (var plan in missing.Count == 0 ? [] : await PlansInForce.ReadAsync(context, missing, cancellationToken))
        {
            var other = Reduced(plan, airedFor);
            using var entry = Known.CreateEntry((plan.Id, plan.Version, airedFor));
            (entry.Value, entry.Size) = (other, 1);
            found.Add(other);
        }

        return [.. found.OrderBy(other => other.DepartAt).ThenBy(other => other.Id, StringComparer.Ordinal)];
    }

    private static Other Reduced(PlanResponse plan, PrecautionSet airedFor) =>
        new(plan.Id, plan.CallSign, plan.Version, plan.Routes.DepartAt, WindowsByWay(plan, airedFor));

    private static TransportOverlapResponse? Meeting(
        IReadOnlyList<PlaceWindow> ours, Other other, IReadOnlyDictionary<string, string> names)
    {
        List<PlaceOverlapResponse> places =
        [
            .. other.Ways.SelectMany(way => Overlap.Between(ours, way.Windows).Select(overlap => (way.Route, Overlap: overlap)))
                .GroupBy(found => found.Overlap, found => found.Route)
                .OrderBy(found => found.Key.Ours.From).ThenBy(found => found.Key.Ours.Place, StringComparer.Ordinal).ThenBy(found => found.Key.Theirs.From)
                .Select(found => new PlaceOverlapResponse
                {
                    Place = found.Key.Ours.Place,
                    Name = names.GetValueOrDefault(found.Key.Ours.Place),
                    Kind = found.Key.Kind,
                    Ours = PlaceWindowResponse.Of(found.Key.Ours),
                    Theirs = PlaceWindowResponse.Of(found.Key.Theirs),
                    TheirRoutes = [.. found],
                }),
        ];
        return places.Count == 0 ? null : new()
        {
            PlanId = other.Id,
            CallSign = other.CallSign,
            Version = other.Version,
            DepartAt = other.DepartAt,
            Places = places,
        };
    }

    private static IReadOnlyList<(string Route, IReadOnlyList<PlaceWindow> Windows)> WindowsByWay(PlanResponse plan, PrecautionSet airedFor) =>
        [.. plan.Routes.Routes.Select(way => (way.Id, Windows(plan, way, airedFor)))];

    /// <summary>
    /// One window for each place of a way: from the first entry to the last leaving, by the go that its cards count from, since that is when its team comes.
    /// </summary>
    private static IReadOnlyList<PlaceWindow> Windows(PlanResponse plan, RouteResponse way, PrecautionSet airedFor)
    {
        var isAired = (plan.Precautions.ToSet() & airedFor) != PrecautionSet.None;
        var go = TimelineSheet.GoOf(plan, way.Id);
        var posts = plan.Posts.FirstOrDefault(posts => posts.Route == way.Id)?.MovedBy(go - plan.Routes.DepartAt);
        var (captures, held) = (posts?.Elevators ?? [], posts?.Held ?? []);
        return
        [
            .. from stay in Stays(way)
               group stay by stay.Place into stays
               let capture = captures.FirstOrDefault(c => way.Legs.Any(leg => leg.Elevator?.Elevator == c.Elevator && leg.Places.Contains(stays.Key)))
               let enters = go.AddSeconds(stays.Min(stay => stay.Enters.EarliestSeconds))
               let leaves = go.AddSeconds(stays.Max(stay => stay.Leaves.NearlyAlwaysSeconds))
               let closed = held.FirstOrDefault(place => place.Place == stays.Key)
               select Window(plan, stays.Key, enters, leaves, isAired, capture, closed?.ClosedUntil ?? closed?.HeldTo)
        ];
    }

    private static PlaceWindow Window(
        PlanResponse plan, string place, DateTimeOffset enters, DateTimeOffset leaves, bool isAired, Core.Posts.ElevatorCapture? capture, DateTimeOffset? heldTo)
    {
        var from = capture is { Captured.From: var captured } && captured < enters ? captured : enters;
        var notBefore = new[] { leaves, heldTo ?? leaves, capture?.GivenBack ?? leaves }.Max();

        // The destination stays in use: nobody airs it because the team has arrived.
        if (!isAired || place == plan.To)
        {
            return new(place, from, leaves, notBefore);
        }

        DateTimeOffset? After(long? minutes, DateTimeOffset notBefore) => minutes is { } known ? new[] { notBefore, leaves.AddMinutes(known) }.Max() : null;
        var airing = plan.Airing.FirstOrDefault(aired => aired.Place == place);
        return airing?.MinutesDoorsShut is null
            ? new(place, from, leaves, After(airing?.Minutes, notBefore))
            : new(
                place, from, leaves, After(airing.MinutesDoorsShut, notBefore),
                After(airing.Minutes, new[] { leaves, heldTo ?? leaves, capture?.GivenBackDoorsOpen ?? capture?.GivenBack ?? leaves }.Max()));
    }

    /// <summary>
    /// Every place crossed with entry and leaving. A plan of an earlier release knows them by the leg, or for the whole way alone: its windows are then
    /// wider, never narrower.
    /// </summary>
    private static IEnumerable<(string Place, Arrival Enters, Arrival Leaves)> Stays(RouteResponse way)
    {
        if (way.Crossings.Count > 0 && way.Crossings.All(crossing => crossing is { Enters: not null, Leaves: not null }))
        {
            return way.Crossings.Select(crossing => (crossing.Place, crossing.Enters!.Value, crossing.Leaves!.Value));
        }

        var whole = new Arrival(0, way.UsualSeconds, way.NearlyAlwaysSeconds);
        return way.Legs.SelectMany((leg, i) => leg.Places.Select(place => (place, i == 0 ? default : way.Legs[i - 1].Ends ?? default, leg.Ends ?? whole)));
    }
}
