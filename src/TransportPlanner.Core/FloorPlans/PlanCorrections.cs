using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.Units;
using static TransportPlanner.Core.FloorPlans.FloorPlanCheck;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>One property that a person may correct.</summary>
/// <param name="Name">Its name in the exchange format.</param>
/// <param name="Value">As in the table of facts; null: unknown, or none.</param>
/// <param name="Known">How it is known: <c>drawing 2025-11-03</c>; null where it is unknown or no fact.</param>
/// <param name="IsFact">True where it has a source.</param>
/// <param name="IsDated">True where the source may have a day.</param>
/// <param name="Expected">What may be given, completing the sentence <i>give …</i>.</param>
public sealed record CorrectableProperty(string Name, string? Value, string? Known, bool IsFact, bool IsDated, string Expected);

/// <summary>Steps made by hand, replayed on a plan.</summary>
public static class PlanCorrections
{
    /// <summary>Numbers of passages that a person drew begin with this, so that a newer handover file, which cannot know them, does not lose them.</summary>
    public const string DrawnPrefix = "P ";

    private const double DrawnDoorMetres = 0.9;
    private static readonly HashSet<string> Drawn = ["number", "joins", "level", "group", "car", "geometry", "standingPoint", "stops"];

    /// <summary>The plan with the steps. A step that does not fit is left out and is an error that names it by its key.</summary>
    public static (FloorPlan Plan, ImmutableArray<Finding> Findings) Onto(FloorPlan plan, IEnumerable<(string Key, PlanCorrection Step)> steps)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(steps);
        var findings = new List<Finding>();
        foreach (var (key, step) in steps)
        {
            var before = findings.Count;
            var next = step switch
            {
                FactCorrection fact => Corrected(plan, fact, key, findings),
                DrawnPassage drawn => WithPassage(plan, drawn, key, findings),
                RemovedPassage removed => WithoutPassage(plan, removed, key, findings),
                AddedStop stop => WithStop(plan, stop, key, findings),
                RemovedStop stop => WithoutStop(plan, stop, key, findings),
                _ => throw new ArgumentOutOfRangeException(nameof(steps), step, "No way to make this step."),
            };
            plan = findings.Skip(before).Any(finding => finding.Severity == FindingSeverity.Error) ? plan : next;
        }

        return (plan, [.. findings]);
    }

    /// <summary>What may be corrected of one feature; null where the plan has no such feature.</summary>
    public static ImmutableArray<CorrectableProperty>? PropertiesOf(FloorPlan plan, PlanFeature feature, string number)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return feature switch
        {
            PlanFeature.Place => Of(plan.Places.FirstOrDefault(place => place.Number == number), PlanSchema.Place),
            PlanFeature.Passage => Of(plan.Passages.FirstOrDefault(passage => passage.Id == number), PlanSchema.Passage),
            PlanFeature.Elevator => Of(plan.Elevators.FirstOrDefault(elevator => elevator.Id == number), PlanSchema.Elevator),
            PlanFeature.ElevatorGroup => Of(plan.ElevatorGroups.FirstOrDefault(group => group.Id == number), PlanSchema.Group),
            _ => throw new ArgumentOutOfRangeException(nameof(feature), feature, "No properties of this."),
        };
    }

    /// <summary>The number that a passage drawn between two places gets: the first that is free.</summary>
    public static string NumberOf(FloorPlan plan, string from, string to)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var taken = plan.Passages.Select(passage => passage.Id).ToHashSet(StringComparer.Ordinal);
        var number = $"{DrawnPrefix}{from}~{to}";
        for (var i = 2; taken.Contains(number); i++)
        {
            number = FormattableString.Invariant($"{DrawnPrefix}{from}~{to} {i}");
        }

        return number;
    }

    private static ImmutableArray<CorrectableProperty>? Of<T>(T? item, Func<PlanFields, T, T> schema)
        where T : class => item is null ? null
        : [.. PlanRecord.Of(item, schema).Zip(PlanRecord.Expected(item, schema)).Where(pair => !Drawn.Contains(pair.First.Name)).Select(pair =>
            new CorrectableProperty(pair.First.Name, FactsTable.CellText(pair.First.Value), pair.First.Source, pair.First.IsFact, pair.First.IsFact && pair.Second != ProfileJson.Expected, pair.Second))];

    private static FloorPlan Corrected(FloorPlan plan, FactCorrection step, string key, List<Finding> findings)
    {
        var subject = $"{PlaceWords.Spaced(step.Feature)} {step.Number}";
        if (PropertiesOf(plan, step.Feature, step.Number)?.FirstOrDefault(property => property.Name == step.Property) is not { } present)
        {
            findings.Add(Error(subject, key, $"{key}: the plan has no {step.Property} of {subject}: take the step back."));
            return plan;
        }

        if (present.Value != step.Before)
        {
            findings.Add(Warning(subject, key,
                $"{key}: {step.Property} of {subject} was {step.Before ?? "unknown"} when it was corrected to {step.Value}, and is {present.Value ?? "unknown"} in the plan in force by now: look which holds."));
        }

        var texts = new Dictionary<string, string>(StringComparer.Ordinal) { [step.Property] = step.Value.Trim() };
        if (present.IsFact)
        {
            texts[step.Property + FactsTable.KnownSuffix] = step.Known ?? "";
        }

        var cells = new CellReader(texts, "", subject, $"{key}: ", findings);
        return step.Feature switch
        {
            PlanFeature.Place => plan with { Places = [.. plan.Places.Select(place => place.Number == step.Number ? PlanSchema.Place(cells, place) : place)] },
            PlanFeature.Passage => plan with { Passages = [.. plan.Passages.Select(passage => passage.Id == step.Number ? PlanSchema.Passage(cells, passage) : passage)] },
            PlanFeature.Elevator => plan with { Elevators = [.. plan.Elevators.Select(elevator => elevator.Id == step.Number ? PlanSchema.Elevator(cells, elevator) : elevator)] },
            _ => plan with { ElevatorGroups = [.. plan.ElevatorGroups.Select(group => group.Id == step.Number ? PlanSchema.Group(cells, group) : group)] },
        };
    }

    private static FloorPlan WithPassage(FloorPlan plan, DrawnPassage step, string key, List<Finding> findings)
    {
        var subject = $"passage {step.Number}";
        var (from, to) = (plan.Places.FirstOrDefault(place => place.Number == step.From), plan.Places.FirstOrDefault(place => place.Number == step.To));
        if (from is null || to is null || from == to || from.Level is null || from.Level != to.Level || plan.Passages.Any(passage => passage.Id == step.Number)
            || step.Kind is PassageKind.LandingDoor or PassageKind.StairFlight)
        {
            findings.Add(Error(subject, key, from is null || to is null ? (FormattableString)$"{key}: the plan has no place {(from is null ? step.From : step.To)}: correct the number."
                : from == to ? (FormattableString)$"{key}: a door joins two places, and {from.Number} is named twice: name the other one."
                : from.Level is null || from.Level != to.Level ? (FormattableString)$"{key}: {from.Number} is on level {from.Level ?? "none"} and {to.Number} on level {to.Level ?? "none"}: a door or an opening joins two places of one level; for an elevator set its stops."
                : step.Kind is PassageKind.LandingDoor or PassageKind.StairFlight ? (FormattableString)$"{key}: a {PlaceWords.Spaced(step.Kind)} is not drawn here: set the stops of the elevator, or draw the stairs in the file."
                : $"{key}: the plan has a passage {step.Number} already: take the step back."));
            return plan;
        }

        // As far as a door may lie from either outline.
        if (SharedEdge.Between(from.Outline, to.Outline, 2 * (FloorGraphBuilder.DoorToleranceMetres - PlaceShape.ToleranceMetres)) is not { } edge)
        {
            findings.Add(Error(subject, key, $"{key}: the outlines of {from.Number} and {to.Number} do not run along each other within {2 * FloorGraphBuilder.DoorToleranceMetres} m: correct the number, or the outlines in the file."));
            return plan;
        }

        var wall = FromWest(edge.Longest);
        var width = step.Kind == PassageKind.Opening && step.AlongMetres is null ? step.WidthMetres ?? wall.Length : step.WidthMetres ?? Math.Min(DrawnDoorMetres, wall.Length);
        var along = step.AlongMetres ?? wall.Length / 2;
        if (!(width is >= 0.1 and <= 50) || !(along - width / 2 >= -PlaceShape.ToleranceMetres) || !(along + width / 2 <= wall.Length + PlaceShape.ToleranceMetres))
        {
            findings.Add(Error(subject, key, $"{key}: {from.Number} and {to.Number} run along each other for {wall.Length:0.00} m, and a way {width:0.00} m wide with its middle at {along:0.00} m does not lie on that: correct the width or the distance."));
            return plan;
        }

        return plan with
        {
            Passages = [.. plan.Passages, new Passage
        {
            Id = step.Number,
            Kind = step.Kind,
            From = from.Number,
            To = to.Number,
            Line = Between(wall, along, width, from.Outline, to.Outline),
            ClearWidth = Width(step, key, findings),
        }]
        };
    }

    private static Fact<Distance> Width(DrawnPassage step, string key, List<Finding> findings)
    {
        if (step.WidthMetres is not { } metres)
        {
            return default;
        }

        var texts = new Dictionary<string, string>(StringComparer.Ordinal) { ["width"] = metres.ToString("R", CultureInfo.InvariantCulture), ["width" + FactsTable.KnownSuffix] = step.Known ?? "" };
        return new CellReader(texts, "", $"passage {step.Number}", $"{key}: ", findings).Metres("width", default, 0.1, 50);
    }

    private static FloorPlan WithoutPassage(FloorPlan plan, RemovedPassage step, string key, List<Finding> findings)
    {
        if (plan.Passages.FirstOrDefault(passage => passage.Id == step.Number) is { Kind: not PassageKind.LandingDoor } gone)
        {
            return plan with { Passages = plan.Passages.Remove(gone) };
        }

        findings.Add(Error($"passage {step.Number}", key, $"{key}: the plan has no door or opening {step.Number}: take the step back; a landing door goes with the stop of its elevator."));
        return plan;
    }

    private static FloorPlan WithStop(FloorPlan plan, AddedStop step, string key, List<Finding> findings)
    {
        var elevator = plan.Elevators.FirstOrDefault(elevator => elevator.Id == step.Elevator);
        var landing = plan.Places.FirstOrDefault(place => place.Number == step.Landing);
        var car = plan.Places.FirstOrDefault(place => place.Number == elevator?.Car);
        if (elevator is null || car is null || landing?.Level is null || elevator.Stops.Any(stop => stop.Landing == step.Landing))
        {
            findings.Add(Error($"elevator {step.Elevator}", key, elevator is null || car is null ? (FormattableString)$"{key}: the plan has no elevator {step.Elevator} with a car: take the step back."
                : landing?.Level is null ? (FormattableString)$"{key}: the plan has no place {step.Landing} on a level: correct the number of the landing."
                : $"{key}: elevator {step.Elevator} stops at {step.Landing} already: take the step back."));
            return plan;
        }

        if (SharedEdge.Between(landing.Outline, car.Outline, DraftBuilder.ShaftWallMetres) is not { } edge)
        {
            findings.Add(Error($"elevator {step.Elevator}", key, $"{key}: the outline of {landing.Number} does not run along the car {car.Number} within {DraftBuilder.ShaftWallMetres} m: correct the number, or the outlines in the file."));
            return plan;
        }

        var wall = FromWest(edge.Longest);
        var door = $"{DrawnPrefix}{car.Number}@{landing.Number}";
        var width = Math.Min(wall.Length, elevator.DoorWidth.OrNull?.Metres ?? DrawnDoorMetres);
        return plan with
        {
            Passages = [.. plan.Passages, new Passage { Id = door, Kind = PassageKind.LandingDoor, From = landing.Number, To = car.Number, Line = Between(wall, wall.Length / 2, width, landing.Outline, landing.Outline) }],
            Elevators = plan.Elevators.Replace(elevator, elevator with { Stops = [.. elevator.Stops, new(landing.Level, landing.Number, door)] }),
        };
    }

    private static FloorPlan WithoutStop(FloorPlan plan, RemovedStop step, string key, List<Finding> findings)
    {
        if (plan.Elevators.FirstOrDefault(elevator => elevator.Id == step.Elevator) is { } elevator && elevator.Stops.FirstOrDefault(stop => stop.Landing == step.Landing) is { } gone)
        {
            return plan with
            {
                Passages = [.. plan.Passages.Where(passage => passage.Id != gone.LandingDoor)],
                Elevators = plan.Elevators.Replace(elevator, elevator with { Stops = elevator.Stops.Remove(gone) }),
            };
        }

        findings.Add(Error($"elevator {step.Elevator}", key, $"{key}: the plan has no stop of elevator {step.Elevator} at {step.Landing}: take the step back."));
        return plan;
    }

    private static PlanSegment FromWest(PlanSegment line) =>
        line.A.X < line.B.X - PlaceShape.ToleranceMetres || (line.A.X <= line.B.X + PlaceShape.ToleranceMetres && line.A.Y <= line.B.Y) ? line : new(line.B, line.A);

    /// <summary>On the shared wall, halfway between both outlines.</summary>
    private static PlanSegment Between(PlanSegment wall, double along, double width, Outline from, Outline to)
    {
        var heading = Heading.From(wall.A, wall.B);
        var spot = heading.Along(wall.A, along);
        var (a, b) = (new PlaceShape(from).Nearest(spot, heading).Point, new PlaceShape(to).Nearest(spot, heading).Point);
        var middle = new PlanPoint((a.X + b.X) / 2, (a.Y + b.Y) / 2);
        return DraftBuilder.Rounded(new(heading.Along(middle, -width / 2), heading.Along(middle, width / 2)));
    }
}
