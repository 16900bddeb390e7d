using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>How a place, passage or elevator differs between two plans.</summary>
public enum PlanChangeKind
{
    Added,
    Gone,
    /// <summary>Another number at the same spot.</summary>
    Renumbered,
    Changed,
}

/// <summary>One difference.</summary>
/// <param name="Kind">What happened.</param>
/// <param name="Feature"><c>level</c>, <c>place</c>, <c>passage</c>, <c>elevator</c> or <c>elevatorGroup</c>.</param>
/// <param name="Number">Its number in the later plan; of one that is gone in the earlier.</param>
/// <param name="Property">Property that changed, by its name in the exchange format; null where the whole is meant.</param>
/// <param name="Before">What stood there, with its source; null: nothing, unknown.</param>
/// <param name="After">What stands there now; null: nothing, unknown.</param>
public sealed record PlanChange(PlanChangeKind Kind, string Feature, string Number, string? Property, string? Before, string? After);

/// <summary>Two plans of one site side by side.</summary>
public static class PlanComparison
{
    private const double SameSpot = 0.9;

    /// <summary>
    /// Every difference: gone first, then renumbered, added, changed; in the order of the numbers. A place that is gone and one that is
    /// new on the same level are one renumbered place where each outline covers 90 % of the other.
    /// </summary>
    public static ImmutableArray<PlanChange> Compare(FloorPlan before, FloorPlan after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        (before, after) = (CanonicalOrder.Of(before), CanonicalOrder.Of(after));
        var renumbered = Renumbered(before, after);
        IEnumerable<PlanChange> changes =
        [
            .. Of("level", before.Levels, after.Levels, level => level.Id, PlanSchema.Level),
            .. Of("place", before.Places.Select(place => renumbered.FirstOrDefault(pair => pair.Value == place.Number).Key is { } number ? place with { Number = number } : place),
                after.Places, place => place.Number, PlanSchema.Place),
            .. renumbered.Select(pair => new PlanChange(PlanChangeKind.Renumbered, "place", pair.Key, "number", pair.Value, pair.Key)),
            .. Of("passage", before.Passages, after.Passages, passage => passage.Id, PlanSchema.Passage),
            .. Of("elevatorGroup", before.ElevatorGroups, after.ElevatorGroups, group => group.Id, PlanSchema.Group),
            .. Of("elevator", before.Elevators, after.Elevators, elevator => elevator.Id, PlanSchema.Elevator),
        ];
        return [.. changes.OrderBy(change => change.Kind switch { PlanChangeKind.Gone => 0, PlanChangeKind.Renumbered => 1, PlanChangeKind.Added => 2, _ => 3 })
            .ThenBy(change => change.Number, StringComparer.Ordinal)];
    }

    /// <summary>What somebody must know of the differences before the later plan replaces the earlier: what is gone, and facts that become unknown.</summary>
    public static IEnumerable<Finding> Findings(IEnumerable<PlanChange> changes, int version) =>
        from change in changes
        where change.Kind == PlanChangeKind.Gone || (change is { Kind: PlanChangeKind.Changed, After: null, Before: not null })
        select change.Kind == PlanChangeKind.Gone
            ? FloorPlanCheck.Warning($"{change.Feature} {change.Number}", "gone",
                $"The {change.Feature} {change.Number} of version {version} is not in this draft: accept that it goes, or add it to the file.")
            : FloorPlanCheck.Warning($"{change.Feature} {change.Number}", "lost",
                $"{change.Property} of {change.Feature} {change.Number} is {change.Before} in version {version} and unknown in this draft: accept that, or give it.");

    /// <summary>Earlier number by later number of the same spot.</summary>
    internal static IReadOnlyDictionary<string, string> Renumbered(FloorPlan before, FloorPlan after)
    {
        var (old, now) = (before.Places.Select(place => place.Number).ToHashSet(), after.Places.Select(place => place.Number).ToHashSet());
        var gone = before.Places.Where(place => !now.Contains(place.Number)).ToLookup(place => place.Level ?? "");
        var pairs = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var place in after.Places.Where(place => !old.Contains(place.Number)))
        {
            if (gone[place.Level ?? ""].FirstOrDefault(earlier => SameOutline(earlier.Outline, place.Outline) && !pairs.ContainsValue(earlier.Number)) is { } found)
            {
                pairs.Add(place.Number, found.Number);
            }
        }

        return pairs;
    }

    private static bool SameOutline(Outline a, Outline b) =>
        Math.Min(a.AreaSquareMetres, b.AreaSquareMetres) >= SameSpot * Math.Max(a.AreaSquareMetres, b.AreaSquareMetres) && OutlineCheck.Overlap(a, b) >= SameSpot;

    private static IEnumerable<PlanChange> Of<T>(string feature, IEnumerable<T> before, IEnumerable<T> after, Func<T, string> number, Func<PlanFields, T, T> schema)
    {
        var old = before.DistinctBy(number).ToDictionary(number, StringComparer.Ordinal);
        var now = after.DistinctBy(number).ToDictionary(number, StringComparer.Ordinal);
        foreach (var gone in old.Keys.Where(key => !now.ContainsKey(key)))
        {
            yield return new(PlanChangeKind.Gone, feature, gone, null, null, null);
        }

        foreach (var (key, item) in now)
        {
            if (!old.TryGetValue(key, out var earlier))
            {
                yield return new(PlanChangeKind.Added, feature, key, null, null, null);
                continue;
            }

            foreach (var (was, isNow) in PlanRecord.Of(earlier, schema).Zip(PlanRecord.Of(item, schema)).Where(pair => pair.First != pair.Second))
            {
                yield return new(PlanChangeKind.Changed, feature, key, was.Name, Words(was.Value, was.Source), Words(isNow.Value, isNow.Source));
            }
        }
    }

    private static string? Words(string? value, string? source) => value is null ? null : source is null ? value : $"{value} ({source})";
}
