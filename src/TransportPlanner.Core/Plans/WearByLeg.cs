using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>What those who give care do with their protective wear for the way. Published rules disagree: infection prevention decides.</summary>
public enum WearOnWay
{
    /// <summary>The whole set from the origin to the destination (PR-103: Liew et al., Crit Care 2020;24:94).</summary>
    KeptOn,
    /// <summary>Gown and gloves off and hands cleaned before leaving, respirator or mask kept on, a fresh set at the destination (PR-032, PR-102: CDC 2007 and 2020, quoted).</summary>
    ChangedAtTheEnds,
}

/// <summary>What somebody wears on a stretch.</summary>
public enum WearState
{
    /// <summary>The whole set of the precautions, gloves on.</summary>
    WholeSet,
    /// <summary>Respirator or mask where the set has one; gown and gloves off, hands cleaned.</summary>
    FaceOnly,
    /// <summary>What infection prevention's card asks of the clean helper, with clean bare hands.</summary>
    HelperSet,
}

/// <summary>Part of the journey on which nobody changes anything.</summary>
/// <param name="FirstLeg">Its first leg, from 0; −1: at the origin, before go.</param>
/// <param name="LastLeg">Its last leg; the number of legs: at the destination, until doffing.</param>
/// <param name="CareGivers">Lead, therapist and nurse.</param>
/// <param name="Helper">The clean helper; null: none goes along.</param>
/// <param name="Receiver">Who receives; null: not there yet.</param>
public sealed record WearStretch(int FirstLeg, int LastLeg, WearState CareGivers, WearState? Helper, WearState? Receiver);

/// <summary>Who wears what on which leg of one way, and where it changes.</summary>
/// <param name="RouteId">The way.</param>
/// <param name="Rule">The site's.</param>
/// <param name="DonningPlace">The anteroom of the origin; null: the floor plan has none.</param>
/// <param name="ChangePlace">Where the fresh set goes on: the anteroom of the destination where the way leads through one, else its door (null). Null too where the set is kept on.</param>
/// <param name="DoffingPlace">The anteroom of the destination; null: the floor plan has none.</param>
/// <param name="Stretches">From the origin to the destination, without a gap; empty without precautions.</param>
public sealed record WearByLeg(
    string RouteId, WearOnWay Rule, string? DonningPlace, string? ChangePlace, string? DoffingPlace, ImmutableArray<WearStretch> Stretches)
{
    /// <param name="plan">Its passages say which anteroom belongs to which room.</param>
    /// <param name="route">The way.</param>
    /// <param name="query">From, to, precautions, helper.</param>
    /// <param name="rule">The site's.</param>
    public static WearByLeg For(FloorPlan plan, Route route, RouteQuery query, WearOnWay rule)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(route);
        ArgumentNullException.ThrowIfNull(query);
        var doffing = Anteroom(plan, route, query.To);
        var isChanged = rule == WearOnWay.ChangedAtTheEnds;
        // The first leg that is behind the change: after the one that reaches the anteroom, else only in the room itself.
        var reached = route.Legs.ToList().FindIndex(leg => doffing is not null && leg.Places.Contains(doffing));
        var fresh = reached >= 0 ? reached + 1 : route.Legs.ToList().FindIndex(leg => leg.Places.All(place => place == query.To));
        fresh = fresh < 0 ? route.Legs.Length : fresh;
        WearStretch At(int leg) => new(
            leg, leg, isChanged && leg >= 0 && leg < fresh ? WearState.FaceOnly : WearState.WholeSet,
            query.Travel.WithHelper ? WearState.HelperSet : null,
            leg == route.Legs.Length ? WearState.WholeSet : null);
        return new(
            route.Id, rule, Anteroom(plan, route, query.From), isChanged && reached >= 0 ? doffing : null, doffing,
            query.Precautions == PrecautionSet.None ? [] : Joined([.. Enumerable.Range(-1, route.Legs.Length + 2).Select(At)]));
    }

    /// <summary>One behind a passage of the room; where there are several, the one on the way.</summary>
    private static string? Anteroom(FloorPlan plan, Route route, string room)
    {
        var behind = plan.Passages.Where(passage => passage.From == room || passage.To == room).Select(passage => passage.From == room ? passage.To : passage.From).ToHashSet();
        var onWay = route.Legs.SelectMany(leg => leg.Places).ToHashSet();
        return plan.Places.Where(place => place.Kind == PlaceKind.Anteroom && behind.Contains(place.Number))
            .OrderByDescending(place => onWay.Contains(place.Number)).ThenBy(place => place.Number, StringComparer.Ordinal).FirstOrDefault()?.Number;
    }

    private static ImmutableArray<WearStretch> Joined(IReadOnlyList<WearStretch> legs)
    {
        List<WearStretch> stretches = [];
        foreach (var leg in legs)
        {
            if (stretches is [.., var last] && last with { FirstLeg = 0, LastLeg = 0 } == leg with { FirstLeg = 0, LastLeg = 0 } && last.FirstLeg >= 0)
                stretches[^1] = last with { LastLeg = leg.LastLeg };
            else
                stretches.Add(leg);
        }

        return [.. stretches];
    }
}
