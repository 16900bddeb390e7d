using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>What a draft is called and where it stands; a handover file does not say it in the planner's terms.</summary>
/// <param name="SiteId">Slug of the site.</param>
/// <param name="Name">As people call it.</param>
/// <param name="TimeZone">IANA time zone.</param>
/// <param name="Notice">What a reader must know first.</param>
public sealed record DraftHeader(string SiteId, string Name, string TimeZone, string? Notice);

/// <summary>A passage that no file names and outlines suggest. It is <i>inferred</i>, and no way leads through it before a person confirms it.</summary>
/// <param name="Id">Number that the passage gets.</param>
/// <param name="Kind">Opening, landing door or stair flight.</param>
/// <param name="From">Number of the first place; of a landing door the landing, of a flight the lower storey.</param>
/// <param name="To">Number of the second place; of a landing door the car.</param>
/// <param name="Line">Where it would lie.</param>
/// <param name="Why">What suggests it, with the figure.</param>
public sealed record InferredJoin(string Id, PassageKind Kind, string From, string To, PlanSegment Line, string Why);

/// <summary>
/// A floor plan made from a file: version 0, with what is left out or guessed said in words. <paramref name="Whole"/> holds the proposals as
/// if all of them were confirmed; <see cref="With"/> gives the plan of what a person really confirmed.
/// </summary>
/// <param name="Whole">The plan with every proposed passage in it.</param>
/// <param name="Joins">Proposals, in the order of their ids.</param>
/// <param name="FileFindings">What the file itself says wrong or leaves open, apart from the plan's own check.</param>
public sealed record DraftPlan(FloorPlan Whole, ImmutableArray<InferredJoin> Joins, ImmutableArray<Finding> FileFindings)
{
    /// <summary>
    /// The plan with the confirmed joins. Their clear widths are unknown: a drawn line says nothing about a beam or a screen. An elevator
    /// all of whose landings are proposals stands in the plan once one of them is confirmed.
    /// </summary>
    public FloorPlan With(IReadOnlyCollection<string> confirmed)
    {
        ArgumentNullException.ThrowIfNull(confirmed);
        var open = Joins.Select(join => join.Id).Except(confirmed, StringComparer.Ordinal).ToHashSet(StringComparer.Ordinal);
        var waiting = Whole.Elevators.Where(elevator => !elevator.Stops.IsEmpty && elevator.Stops.All(stop => open.Contains(stop.LandingDoor)))
            .ToLookup(elevator => elevator.Id, StringComparer.Ordinal);
        var cars = waiting.SelectMany(same => same).Select(elevator => elevator.Car).ToHashSet(StringComparer.Ordinal);
        var elevators = Whole.Elevators.Where(elevator => !waiting.Contains(elevator.Id)).ToArray();
        var emptied = waiting.SelectMany(same => same).Select(elevator => elevator.Group).Except(elevators.Select(elevator => elevator.Group), StringComparer.Ordinal).ToHashSet();
        return Whole with
        {
            Places = [.. Whole.Places.Where(place => !cars.Contains(place.Number))],
            Passages = [.. Whole.Passages.Where(passage => !open.Contains(passage.Id))],
            Elevators = [.. elevators.Select(elevator => elevator with { Stops = [.. elevator.Stops.Where(stop => !open.Contains(stop.LandingDoor))] })],
            ElevatorGroups = [.. Whole.ElevatorGroups.Where(group => !emptied.Contains(group.Id))],
        };
    }

    /// <summary>
    /// Everything that somebody should know before <paramref name="plan"/> is published, sorted by what it breaks: errors; pieces that
    /// nobody reaches; doors and elevators left out; outlines; unknown facts. More than three warnings about one property are one finding
    /// that names them all.
    /// </summary>
    /// <param name="plan">What would be published: <see cref="With"/>, perhaps with facts of the plan in force.</param>
    /// <param name="answered">Ids of the joins that a person confirmed or said to be none.</param>
    /// <param name="compared">Findings against the plan in force.</param>
    /// <param name="standing">Findings that the plan in force has already: warnings among them are not raised again. Null: none.</param>
    public ImmutableArray<Finding> Review(FloorPlan plan, IReadOnlyCollection<string> answered, IEnumerable<Finding> compared, IEnumerable<Finding>? standing = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(answered);
        var ids = answered.ToHashSet(StringComparer.Ordinal);
        var known = (standing ?? []).Where(finding => finding.Severity == FindingSeverity.Warning).ToHashSet();
        IEnumerable<Finding> findings = [.. FileFindings, .. compared, .. FloorPlanCheck.Run(plan).Where(finding => !known.Contains(finding)), .. Waiting([.. Joins.Where(join => !ids.Contains(join.Id))])];
        return [.. findings.GroupBy(finding => (finding.Severity, finding.Path, Own: finding.Severity == FindingSeverity.Error || finding.Path == "joins" ? finding.Subject : ""))
            .SelectMany(Together)
            .OrderByDescending(finding => finding.Severity).ThenBy(finding => Rank(finding.Path))];
    }

    /// <summary>The review of the plan with these joins, none of the others answered.</summary>
    public ImmutableArray<Finding> Review(IReadOnlyCollection<string> confirmed) => Review(With(confirmed), confirmed, []);

    private static IEnumerable<Finding> Waiting(InferredJoin[] open)
    {
        foreach (var kind in open.GroupBy(join => join.Kind))
        {
            yield return FloorPlanCheck.Warning("inferred joins", $"inferred.{kind.Key}",
                $"{kind.Count()} inferred {PlaceWords.Spaced(kind.Key)} joins are not confirmed and stay out of the plan: {Some([.. kind.Select(join => $"{join.From} to {join.To}")])}. Look at each on site, then confirm it or accept that no way leads there.");
        }
    }

    private static IEnumerable<Finding> Together(IEnumerable<Finding> findings)
    {
        var all = findings.ToArray();
        return all.Length <= 3
            ? all
            : [all[0] with { Subject = $"{all.Length} findings", Text = FormattableString.Invariant($"{all[0].Text} The same holds for {Some([.. all[1..].Select(finding => finding.Subject)])}.") }];
    }

    private static string Some(string[] names) =>
        names.Length <= 12 ? string.Join(", ", names) : FormattableString.Invariant($"{string.Join(", ", names[..12])} and {names.Length - 12} more");

    private static readonly string[] Order =
    [
        "joins", "gone", "lost", "doorPoint", "doorLevels", "doorOutline", "doorSpaces", "elevators", "inferred.LandingDoor", "inferred.Opening", "inferred.StairFlight",
        "kind", "outline", "area", "geometry", "clearWidthMetres",
    ];

    private static int Rank(string path) => Array.IndexOf(Order, path) is >= 0 and var rank ? rank : Order.Length;
}
