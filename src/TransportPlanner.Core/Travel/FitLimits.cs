using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>What the checks on one place, passage or car found: the first limit that fails, and every check that could not be made.</summary>
internal sealed record LimitFindings(Obstacle? Obstacle, ImmutableArray<UnknownLimit> Unknown);

/// <summary>Checks one conveyance against the limits of places, passages, cars and corners, and says what it finds in words.</summary>
internal sealed class FitLimits(TravelQuery query, string timeZone)
{
    private readonly Conveyance _conveyance = query.Conveyance;
    private readonly TravelSettings _settings = query.Settings;
    private readonly TimeZoneInfo _zone = TimeZoneInfo.FindSystemTimeZoneById(timeZone);
    private readonly ILookup<(ClosureTarget, string), Closure> _closures = query.Closures
        .Where(closure => closure.Overlaps(query.Departure, query.Departure + query.Settings.ClosureWindow))
        .ToLookup(closure => (closure.Target, closure.TargetId));

    internal double WidthNeeded => _conveyance.Width.Metres + 2 * _settings.ClearanceEachSide.Metres;
    internal double LengthNeeded => _conveyance.Length.Metres + 2 * _settings.ClearanceEachSide.Metres;
    internal double CarAreaNeeded => _conveyance.Length.Metres * _conveyance.Width.Metres + _conveyance.Crew * _settings.CrewAreaSquareMetres;
    internal double LoadNeeded => _conveyance.MassKilograms + _conveyance.Crew * _settings.CrewMassKilograms;

    internal LimitFindings Of(Passage passage)
    {
        var name = NameOf(passage);
        var check = new Checklist(ClosureTarget.Passage, passage.Id);
        if (passage.Kind == PassageKind.StairFlight)
        {
            check.Forbid(LimitKind.StairFlight, $"{name}: an incubator is not carried on stairs");
        }

        check.AtLeast(LimitKind.ClearWidth, Metres(passage.ClearWidth), WidthNeeded, name, "clear width", "too narrow", "clear");
        if (passage.ClearHeight.IsKnown || passage.IsDoor)
        {
            check.AtLeast(LimitKind.ClearHeight, Metres(passage.ClearHeight), _conveyance.Height.Metres, name, "clear height", "too low", "high");
        }

        if (passage.Threshold.IsKnown || passage.IsDoor)
        {
            check.AtMost(
                LimitKind.Threshold, Metres(passage.Threshold), _settings.MaxThreshold.Metres, $"the threshold of {name}", "height", "too high", Figure.Length);
        }

        if (_settings.CannotOpen.Contains(passage.Access))
        {
            check.Forbid(LimitKind.Access, $"{name} needs a {passage.Access.ToString().ToLowerInvariant()} that nobody with the transport carries");
        }

        return Finish(check);
    }

    internal LimitFindings Of(Place place)
    {
        var name = NameOf(place);
        var check = new Checklist(ClosureTarget.Place, place.Number);
        if (place.Flags.HasFlag(PlaceFlags.NoEntry))
        {
            check.Forbid(LimitKind.NoEntry, $"{name} is marked no entry");
        }

        if (place.Flags.HasFlag(PlaceFlags.NoCylinders) && query.CarriesCylinders)
        {
            check.Forbid(LimitKind.NoCylinders, $"{name} is a no-cylinder zone and cylinders travel along");
        }

        if (place.GradientPercent.IsKnown || place.Kind == PlaceKind.Ramp)
        {
            check.AtMost(
                LimitKind.Gradient, place.GradientPercent, _settings.MaxGradientPercent, $"the slope of {name}", "gradient", "too steep", Figure.Percent);
        }

        check.AtLeast(LimitKind.ClearHeight, Metres(place.Height), _conveyance.Height.Metres, name, "height", "too low", "high");
        return Finish(check);
    }

    internal LimitFindings Of(Elevator elevator)
    {
        var name = NameOf(elevator);
        var check = new Checklist(ClosureTarget.Elevator, elevator.Id);
        check.AtLeast(LimitKind.CarLength, Metres(elevator.CarLength), LengthNeeded, $"the car of {name}", "length", "too short", "long");
        check.AtLeast(LimitKind.CarWidth, Metres(elevator.CarWidth), WidthNeeded, $"the car of {name}", "width", "too narrow", "wide");
        check.AtLeast(LimitKind.CarDoor, Metres(elevator.DoorWidth), WidthNeeded, $"the door of {name}", "clear width", "too narrow", "clear");
        check.AtLeast(
            LimitKind.CarArea, Area(elevator), CarAreaNeeded, $"the car of {name}", "floor area", "too small",
            $"of floor for the incubator and a crew of {_conveyance.Crew}", Figure.Area);
        check.AtLeast(
            LimitKind.RatedLoad, elevator.RatedLoadKilograms, LoadNeeded, name, "rated load", "too weak",
            $"rated, for {_conveyance.MassKilograms:0.#} kg and a crew of {_conveyance.Crew}", Figure.Mass);
        return Finish(check);
    }

    /// <summary>Longest box of the conveyance's width, clearance included, that turns between two widths; 0 where it does not even enter, null where a width is unknown.</summary>
    internal double? LongestBox(Turn turn) => turn.WidthBeforeMillimetres < 0 || turn.WidthAfterMillimetres < 0 ? null
        : turn.WidthBeforeMillimetres == 0 || turn.WidthAfterMillimetres == 0 ? 0
        : CornerFit.LongestBox(turn.WidthBeforeMillimetres / 1_000.0, turn.WidthAfterMillimetres / 1_000.0, WidthNeeded);

    internal Obstacle? Corner(string place, Turn turn, double? longestBox)
    {
        if (longestBox is not { } longest)
        {
            return query.AvoidUnknown ? Checklist.Avoided(UnknownCorner(place)) : null;
        }

        var (before, after, needed) = (turn.WidthBeforeMillimetres / 1_000.0, turn.WidthAfterMillimetres / 1_000.0, _conveyance.Length.Metres);
        var narrow = Math.Min(before, after);
        return longest >= needed ? null
            : longest <= 0 ? new(
                LimitKind.ClearWidth, ClosureTarget.Place, place, narrow, WidthNeeded,
                $"place {place} is {Figure.Length.Difference(WidthNeeded - narrow)} too narrow at a turn ({Figure.Length.Show(narrow)} clear, {Figure.Length.Show(WidthNeeded)} needed, from the outlines and doors)")
            : new(
                LimitKind.Corner, ClosureTarget.Place, place, longest, needed,
                $"the turn in place {place} is {Figure.Length.Difference(needed - longest)} too tight ({Figure.Length.Show(longest)} is the longest box {Figure.Length.Show(WidthNeeded)} wide that turns from {Figure.Length.Show(before)} into {Figure.Length.Show(after)}, {Figure.Length.Show(needed)} needed)");
    }

    internal static UnknownLimit UnknownCorner(string place) =>
        new(LimitKind.Corner, ClosureTarget.Place, place, $"a turn in place {place} was not tested: its clear widths are unknown");

    private LimitFindings Finish(Checklist check)
    {
        if (query.AvoidUnknown)
        {
            check.ForbidUnknown();
        }

        return check.Findings;
    }

    /// <summary>Whether any closure holds in the hour after departure.</summary>
    internal bool HasClosures => _closures.Count > 0;

    /// <summary>The findings once closures count too: one forbids where nothing else does.</summary>
    internal LimitFindings Closed(LimitFindings findings, Passage passage) => Closed(findings, ClosureTarget.Passage, passage.Id, NameOf(passage));

    internal LimitFindings Closed(LimitFindings findings, Place place) => Closed(findings, ClosureTarget.Place, place.Number, NameOf(place));

    internal LimitFindings Closed(LimitFindings findings, Elevator elevator) =>
        Closed(findings, ClosureTarget.Elevator, elevator.Id, NameOf(elevator));

    private LimitFindings Closed(LimitFindings findings, ClosureTarget target, string id, string name) =>
        findings.Obstacle is null && _closures[(target, id)].FirstOrDefault() is { } closure
            ? findings with
            {
                Obstacle = new(
                    LimitKind.Closure, target, id, null, null,
                    $"{name} is closed from {Local(closure.From)} to {Local(closure.To)} ({closure.Reason}; {closure.Source})", closure),
            }
            : findings;

    private static string NameOf(Passage passage) => $"{NounFor(passage.Kind)} {passage.Id}";

    private static string NameOf(Place place) => $"place {place.Number}";

    private static string NameOf(Elevator elevator) => $"elevator {elevator.Id}";

    private string Local(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, _zone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static Fact<double> Metres(Fact<Distance> fact) => fact.IsKnown ? new(fact.Value.Metres, fact.Source, fact.AsOf) : default;

    /// <summary>As well known as the less certain of the two sides.</summary>
    private static Fact<double> Area(Elevator elevator)
    {
        var (length, width) = (elevator.CarLength, elevator.CarWidth);
        return length.IsKnown && width.IsKnown
            ? new(length.Value.Metres * width.Value.Metres, length.Source < width.Source ? length.Source : width.Source, length.AsOf < width.AsOf ? length.AsOf : width.AsOf)
            : default;
    }

    private static string NounFor(PassageKind kind) => kind switch
    {
        PassageKind.Opening => "opening",
        PassageKind.LandingDoor => "landing door",
        PassageKind.StairFlight => "stair flight",
        _ => "door",
    };
}
