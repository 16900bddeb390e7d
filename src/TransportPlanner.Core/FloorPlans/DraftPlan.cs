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

/// <summary>A floor plan made from a handover file: version 0, with what is left out or guessed said in words.</summary>
public sealed record DraftPlan
{
    private readonly FloorPlan _plan;
    private readonly ImmutableArray<(Place Car, Elevator Elevator)> _elevators;
    private readonly ImmutableArray<Finding> _findings;

    internal DraftPlan(
        FloorPlan plan, ImmutableArray<InferredJoin> joins, ImmutableArray<(Place Car, Elevator Elevator)> elevators, ImmutableArray<Finding> findings) =>
        (_plan, Joins, _elevators, _findings) = (plan, joins, elevators, findings);

    /// <summary>Proposals, in the order of their ids.</summary>
    public ImmutableArray<InferredJoin> Joins { get; }

    /// <summary>What the file itself says wrong or leaves open, apart from the plan's own check.</summary>
    public ImmutableArray<Finding> FileFindings => _findings;

    /// <summary>
    /// The plan with the confirmed joins. Their clear widths are unknown: a drawn line says nothing about a beam or a screen. An elevator
    /// stands in the plan once one of its landings is confirmed.
    /// </summary>
    public FloorPlan With(IReadOnlyCollection<string> confirmed)
    {
        ArgumentNullException.ThrowIfNull(confirmed);
        var ids = confirmed.ToHashSet(StringComparer.Ordinal);
        var joins = Joins.Where(join => ids.Contains(join.Id)).ToArray();
        var levels = _plan.Places.ToLookup(place => place.Number, place => place.Level);
        var elevators = _elevators
            .Select(pair => pair with
            {
                Elevator = pair.Elevator with
                {
                    Stops = [.. joins.Where(join => join.To == pair.Car.Number && join.Kind == PassageKind.LandingDoor)
                        .Select(join => new ElevatorStop(levels[join.From].First()!, join.From, join.Id))],
                },
            })
            .Where(pair => !pair.Elevator.Stops.IsEmpty).ToArray();
        return _plan with
        {
            Places = [.. _plan.Places, .. elevators.Select(pair => pair.Car)],
            Passages = [.. _plan.Passages, .. joins.Select(join => new Passage { Id = join.Id, Kind = join.Kind, From = join.From, To = join.To, Line = join.Line })],
            Elevators = [.. elevators.Select(pair => pair.Elevator)],
            ElevatorGroups = [.. elevators.Select(pair => new ElevatorGroup(pair.Elevator.Group, pair.Elevator.Name, null, FactSource.Assumed))],
        };
    }

    /// <summary>
    /// Everything that somebody should know before this is published, sorted by what it breaks: errors; pieces that nobody reaches; doors
    /// and elevators left out; outlines; unknown facts. More than three warnings about one property are one finding that names them all.
    /// </summary>
    public ImmutableArray<Finding> Review(IReadOnlyCollection<string> confirmed)
    {
        ArgumentNullException.ThrowIfNull(confirmed);
        var plan = With(confirmed);
        var ids = confirmed.ToHashSet(StringComparer.Ordinal);
        var open = Joins.Where(join => !ids.Contains(join.Id)).ToArray();
        IEnumerable<Finding> findings = [.. _findings, .. FloorPlanCheck.Run(plan), .. Waiting(open)];
        return [.. findings.GroupBy(finding => (finding.Severity, finding.Path, Own: finding.Severity == FindingSeverity.Error || finding.Path == "joins" ? finding.Subject : ""))
            .SelectMany(Together)
            .OrderByDescending(finding => finding.Severity).ThenBy(finding => Rank(finding.Path))];
    }

    private IEnumerable<Finding> Waiting(InferredJoin[] open)
    {
        foreach (var (car, elevator) in _elevators.Where(pair => !open.Any(join => join.To == pair.Car.Number) && !Joins.Any(join => join.To == pair.Car.Number)))
        {
            yield return FloorPlanCheck.Warning($"elevator {elevator.Id}", "elevators",
                $"No circulation space lies beside the shaft {car.Number}, so elevator {elevator.Id} has no stops and is left out: draw the outlines of its landings.");
        }

        foreach (var kind in open.GroupBy(join => join.Kind))
        {
            yield return FloorPlanCheck.Warning("inferred joins", $"inferred.{kind.Key}",
                $"{kind.Count()} inferred joins of the kind {kind.Key} are not confirmed and stay out of the plan: {Some([.. kind.Select(join => $"{join.From} to {join.To}")])}. Look at each on site, then confirm it or accept that no way leads there.");
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
        "joins", "doorPoint", "doorLevels", "doorOutline", "doorSpaces", "elevators", "inferred.LandingDoor", "inferred.Opening", "inferred.StairFlight",
        "kind", "outline", "area", "geometry", "clearWidthMetres",
    ];

    private static int Rank(string path) => Array.IndexOf(Order, path) is >= 0 and var rank ? rank : Order.Length;
}
