using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>Who wears what on which leg, in words.</summary>
internal static class WearWords
{
    /// <summary>The site's rule in one sentence, and that it is assumed where the site has not said.</summary>
    public static string Rule(RouteWearResponse wear) =>
        (wear.Rule == WearOnWay.KeptOn
            ? "Those who give care keep the whole set on from start to destination."
            : "Those who give care take gown and gloves off and clean their hands before leaving, keep respirator or mask on, and put a fresh set on at the destination.")
        + (wear.RuleAssumed ? " Assumed: infection prevention decides." : "");

    /// <summary>Where a stretch lies: at the start, legs with their first and last place, at the destination.</summary>
    public static string Where(WearStretchResponse stretch, TimelineSheet sheet)
    {
        var legs = sheet.Way.Legs;
        return stretch switch
        {
            { LastLeg: 0 } => $"In {sheet.Plan.From}, before go",
            _ when stretch.FirstLeg > legs.Count => $"In {sheet.Plan.To}, until taking off",
            _ => $"{(stretch.FirstLeg == stretch.LastLeg ? $"Leg {stretch.FirstLeg}" : $"Legs {stretch.FirstLeg} to {stretch.LastLeg}")}, {legs[stretch.FirstLeg - 1].FromPlace} → {legs[stretch.LastLeg - 1].ToPlace}",
        };
    }

    public static string Of(WearState state, PlanResponse plan) => state switch
    {
        WearState.FaceOnly when plan.Precautions.Contains(Precaution.Airborne) => "respirator; gown and gloves off, hands clean",
        WearState.FaceOnly when plan.Precautions.Contains(Precaution.Droplet) => "mask; gown and gloves off, hands clean",
        WearState.FaceOnly => "gown and gloves off, hands clean",
        WearState.HelperSet => "own set, clean hands, touches doors and buttons only",
        WearState.WholeSet => "whole set, gloves on",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "No words for this state."),
    };

    /// <summary>Where wear goes on, changes and comes off.</summary>
    public static IEnumerable<string> Places(RouteWearResponse wear, TimelineSheet sheet)
    {
        yield return wear.DonningPlace is { } on ? $"On: in {on}, hands clean, before entering {sheet.Plan.From}" : $"On: in a clean area before {sheet.Plan.From}; the floor plan has no anteroom there";
        if (wear.Rule == WearOnWay.ChangedAtTheEnds)
        {
            yield return $"Gown and gloves off: in {sheet.Plan.From}, once the infant is in the incubator, then hand hygiene";
            yield return $"Fresh set on: {(wear.ChangePlace is { } change ? $"in {change}" : $"at the door of {sheet.Plan.To}")}, hand hygiene first; it waits there";
        }

        yield return wear.DoffingPlace is { } off ? $"Off: by the steps below, watched; last the respirator or mask, in {off}, door shut" : $"Off: by the steps below, watched, where infection prevention says; the floor plan has no anteroom at {sheet.Plan.To}";
    }
}
