using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>What somebody should mend or measure before and after a plan is published.</summary>
public static class FloorPlanCheck
{
    /// <summary>Errors first, then warnings; unknown widths on a way from a delivery or operating room to an isolation room lead theirs. Equal plans give equal lists.</summary>
    /// <remarks>While the structure is broken (a number that refers to nothing, say) only that is reported: the rest would mislead.</remarks>
    public static ImmutableArray<Finding> Run(FloorPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var structure = Structure(plan).ToArray();
        if (structure.Any(finding => finding.Severity == FindingSeverity.Error))
        {
            return Sorted(structure);
        }

        var pieces = new PlacePieces(plan);
        return Sorted([.. structure, .. OutlineCheck.Run(plan), .. pieces.Findings(), .. UnknownWidths(plan, pieces), .. UnknownFacts(plan), .. OpenCompartments(plan)]);
    }

    internal static IEnumerable<Finding> Structure(FloorPlan plan) => StructureCheck.Run(plan);

    internal static Finding Error(string subject, string path, FormattableString text) =>
        new(FindingSeverity.Error, subject, path, FormattableString.Invariant(text));

    internal static Finding Warning(string subject, string path, FormattableString text) =>
        new(FindingSeverity.Warning, subject, path, FormattableString.Invariant(text));

    private static ImmutableArray<Finding> Sorted(IEnumerable<Finding> findings) => [.. findings.OrderByDescending(finding => finding.Severity)];

    private static IEnumerable<Finding> UnknownWidths(FloorPlan plan, PlacePieces pieces)
    {
        var urgent = pieces.OnWaysToIsolation();
        return plan.Passages
            .Where(passage => !passage.ClearWidth.IsKnown && passage.Kind != PassageKind.StairFlight)
            .OrderByDescending(passage => urgent.Contains(passage.Id))
            .Select(passage => Warning($"passage {passage.Id}", "clearWidthMetres", urgent.Contains(passage.Id)
                ? (FormattableString)$"The clear width between {passage.From} and {passage.To} is unknown, and it lies on a way from a delivery or operating room to an isolation room: measure it first."
                : $"The clear width between {passage.From} and {passage.To} is unknown: measure it; until then no way through it can be called fitting."));
    }

    /// <summary>Fire goes through an opening: the two places cannot be in different compartments.</summary>
    private static IEnumerable<Finding> OpenCompartments(FloorPlan plan)
    {
        var compartments = plan.Places.Where(place => place.FireCompartment.IsKnown).ToDictionary(place => place.Number, place => place.FireCompartment.Value.Name);
        foreach (var opening in plan.Passages.Where(passage => passage.Kind == PassageKind.Opening))
        {
            if (compartments.TryGetValue(opening.From, out var from) && compartments.TryGetValue(opening.To, out var to) && from != to)
            {
                yield return Warning($"passage {opening.Id}", "fireCompartment",
                    $"{opening.From} is in fire compartment {from} and {opening.To} in {to}, yet an opening without a door joins them: ask who keeps the fire plan, and correct one.");
            }
        }
    }

    private static IEnumerable<Finding> UnknownFacts(FloorPlan plan)
    {
        foreach (var elevator in plan.Elevators)
        {
            var unknown = new[] { (elevator.CarLength.IsKnown, "carLengthMetres"), (elevator.CarWidth.IsKnown, "carWidthMetres"),
                (elevator.DoorWidth.IsKnown, "doorWidthMetres"), (elevator.RatedLoadKilograms.IsKnown, "ratedLoadKilograms") };
            foreach (var (_, name) in unknown.Where(fact => !fact.Item1))
            {
                yield return Warning($"elevator {elevator.Id}", name,
                    $"{name} of elevator {elevator.Id} is unknown: read it from the car's plate or measure it; until then no load can be called fitting.");
            }
        }

        foreach (var place in plan.Places.Where(place => place.Occupancy is null))
        {
            yield return Warning($"place {place.Number}", "occupancy",
                $"Nobody has said how many people are in {place.Number} ({place.Name}): give a mean by hour; until then a way through it has an unknown number of people.");
        }
    }
}
