using System.Collections.Immutable;
using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Travel;

/// <summary>What the checks on one place, passage or car found: the first limit that fails, and every check that could not be made.</summary>
internal sealed record LimitFindings(Obstacle? Obstacle, ImmutableArray<UnknownLimit> Unknown);

/// <summary>Checks one conveyance against the limits of places, passages, cars and corners, and says what it finds.</summary>
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
        var check = new Checklist(ClosureTarget.Passage, passage.Id, passage.Kind);
        if (passage.Kind == PassageKind.StairFlight)
        {
            check.Forbid(LimitKind.StairFlight, StatementText.OnStairs);
        }

        check.AtLeast(LimitKind.ClearWidth, Metres(passage.ClearWidth), WidthNeeded, Figure.Length, StatementText.TooNarrow);
        if (passage.ClearHeight.IsKnown || passage.IsDoor)
        {
            check.AtLeast(LimitKind.ClearHeight, Metres(passage.ClearHeight), _conveyance.Height.Metres, Figure.Length, StatementText.TooLow);
        }

        if (passage.Threshold.IsKnown || passage.IsDoor)
        {
            check.AtMost(LimitKind.Threshold, Metres(passage.Threshold), _settings.MaxThreshold.Metres, Figure.Length, StatementText.ThresholdTooHigh);
        }

        if (_settings.CannotOpen.Contains(passage.Access))
        {
            check.Forbid(
                LimitKind.Access,
                passage.Access switch { AccessControl.Badge => StatementText.NeedsBadge, AccessControl.Code => StatementText.NeedsCode, _ => StatementText.NeedsKey });
        }

        return Finish(check);
    }

    internal LimitFindings Of(Place place)
    {
        var check = new Checklist(ClosureTarget.Place, place.Number);
        if (place.Flags.HasFlag(PlaceFlags.NoEntry))
        {
            check.Forbid(LimitKind.NoEntry, StatementText.NoEntry);
        }

        if (place.Flags.HasFlag(PlaceFlags.NoCylinders) && query.CarriesCylinders)
        {
            check.Forbid(LimitKind.NoCylinders, StatementText.NoCylinders);
        }

        if (place.GradientPercent.IsKnown || place.Kind == PlaceKind.Ramp)
        {
            check.AtMost(LimitKind.Gradient, place.GradientPercent, _settings.MaxGradientPercent, Figure.Percent, StatementText.TooSteep);
        }

        check.AtLeast(LimitKind.ClearHeight, Metres(place.Height), _conveyance.Height.Metres, Figure.Length, StatementText.TooLow);
        return Finish(check);
    }

    internal LimitFindings Of(Elevator elevator)
    {
        var check = new Checklist(ClosureTarget.Elevator, elevator.Id);
        check.AtLeast(LimitKind.CarLength, Metres(elevator.CarLength), LengthNeeded, Figure.Length, StatementText.CarTooShort);
        check.AtLeast(LimitKind.CarWidth, Metres(elevator.CarWidth), WidthNeeded, Figure.Length, StatementText.CarTooNarrow);
        check.AtLeast(LimitKind.CarDoor, Metres(elevator.DoorWidth), WidthNeeded, Figure.Length, StatementText.CarDoorTooNarrow);
        check.AtLeast(LimitKind.CarArea, Area(elevator), CarAreaNeeded, Figure.Area, StatementText.CarTooSmall, _conveyance.Crew);
        check.AtLeast(
            LimitKind.RatedLoad, elevator.RatedLoadKilograms, LoadNeeded, Figure.Mass, StatementText.TooWeak,
            _conveyance.MassKilograms.ToString("0.#", CultureInfo.InvariantCulture), _conveyance.Crew);
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
        var (name, figure, narrow) = (Statement.NameOf(ClosureTarget.Place, place), Figure.Length, Math.Min(before, after));
        return longest >= needed ? null
            : longest <= 0 ? new(
                LimitKind.ClearWidth, ClosureTarget.Place, place, narrow, WidthNeeded,
                Statement.Of(StatementText.TurnTooNarrow, name, figure.Difference(WidthNeeded - narrow), figure.Show(narrow), figure.Show(WidthNeeded)))
            : new(
                LimitKind.Corner, ClosureTarget.Place, place, longest, needed,
                Statement.Of(
                    StatementText.TurnTooTight, name, figure.Difference(needed - longest), figure.Show(longest), figure.Show(WidthNeeded), figure.Show(before),
                    figure.Show(after), figure.Show(needed)));
    }

    internal static UnknownLimit UnknownCorner(string place) => new(LimitKind.Corner, ClosureTarget.Place, place);

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
    internal LimitFindings Closed(LimitFindings findings, Passage passage) => Closed(findings, ClosureTarget.Passage, passage.Id, passage.Kind);

    internal LimitFindings Closed(LimitFindings findings, Place place) => Closed(findings, ClosureTarget.Place, place.Number);

    internal LimitFindings Closed(LimitFindings findings, Elevator elevator) => Closed(findings, ClosureTarget.Elevator, elevator.Id);

    private LimitFindings Closed(LimitFindings findings, ClosureTarget target, string id, PassageKind? passage = null) =>
        findings.Obstacle is null && _closures[(target, id)].FirstOrDefault() is { } closure
            ? findings with
            {
                Obstacle = new(
                    LimitKind.Closure, target, id, null, null,
                    Statement.Of(StatementText.Closed, Statement.NameOf(target, id, passage), Local(closure.From), Local(closure.To), closure.Reason, closure.Source), closure),
            }
            : findings;

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
}
