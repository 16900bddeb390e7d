using System.Globalization;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;
using TransportPlanner.Web.Shared;

namespace TransportPlanner.Web.Plans;

/// <summary>The plan's figures and closed lists in the words of the sheet.</summary>
public static class PlanWords
{
    /// <summary>Minutes and seconds, rounded up to the second: <c>7:10</c>.</summary>
    public static string Clock(double seconds)
    {
        var whole = (int)Math.Ceiling(seconds - 1e-9);
        return string.Create(CultureInfo.InvariantCulture, $"{whole / 60}:{whole % 60:00}");
    }

    /// <summary>Expected time of one leg such that the legs shown add up to the whole: each ends at the next full second of the sum so far.</summary>
    public static string ClockOf(IReadOnlyList<LegResponse> legs, int index)
    {
        int Until(int count) => (int)Math.Ceiling(legs.Take(count).Sum(leg => leg.ExpectedSeconds) - 1e-9);
        return Clock(Until(index + 1) - Until(index));
    }

    /// <summary>At most one decimal, two below one: enough to compare ways and no more.</summary>
    public static string Count(double value) => value.ToString(value < 1 ? "0.##" : "0.#", CultureInfo.InvariantCulture);

    public static string Of(IEnumerable<Precaution> precautions) => string.Join(", ", precautions.Select(Of));

    public static string Of(Precaution precaution) => precaution switch
    {
        Precaution.Contact => PackTexts.PrecautionContact,
        Precaution.Droplet => PackTexts.PrecautionDroplet,
        Precaution.Airborne => PackTexts.PrecautionAirborne,
        _ => throw new ArgumentOutOfRangeException(nameof(precaution), precaution, "No words for this precaution."),
    };

    public static string Reason(string reason) => reason.Replace('-', ' ');

    public static string Of(SheetPart part) => part switch
    {
        SheetPart.Overlaps => "other transports",
        SheetPart.FloorPlans => "floor plans",
        SheetPart.Wear => "protective wear",
        SheetPart.PlanB => "plan B",
        SheetPart.Calls => "call list",
        SheetPart.Basis => "assumed and cautions",
        _ => part.ToString().ToLowerInvariant(),
    };

    /// <summary>What the address says where one of a list is meant and it is none of them; null else. Who follows such an address is told 404, and the names.</summary>
    public static string? NotRead(PageModel page, string name)
    {
        if (page.ModelState.GetValueOrDefault(name) is not { ValidationState: ModelValidationState.Invalid } entry)
        {
            return null;
        }

        page.Response.StatusCode = StatusCodes.Status404NotFound;
        return entry.AttemptedValue ?? "";
    }

    public static string Of(LegKind kind) => kind switch
    {
        LegKind.Room => "room",
        LegKind.CleanCorridor => "clean corridor",
        LegKind.SoiledCorridor => "soiled corridor",
        LegKind.PublicCorridor => "public corridor",
        LegKind.RestrictedCorridor => "restricted corridor",
        LegKind.Ramp => "ramp",
        LegKind.LinkBridge => "link bridge",
        LegKind.Outdoors => "outdoors",
        LegKind.ElevatorRide => "elevator",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No words for this kind of leg."),
    };

    public static string Of(DoorOnWay door) => door.Access == AccessControl.None
        ? PackText.Of(PackTexts.Door, FloorPlanWords.Of(door.Kind), door.Passage)
        : PackText.Of(PackTexts.DoorLocked, FloorPlanWords.Of(door.Kind), door.Passage, FloorPlanWords.Of(door.Access));

    public static string Of(JourneyTimeKind time) => time switch
    {
        JourneyTimeKind.Usually => "usually",
        JourneyTimeKind.NearlyAlways => "nearly always",
        JourneyTimeKind.PlanBWorst => "plan B, worst arrival",
        _ => throw new ArgumentOutOfRangeException(nameof(time), time, "No words for this time."),
    };

    /// <summary>What one more cylinder would give, in one sentence.</summary>
    public static string Of(OneMoreCylinderResponse one)
    {
        var rules = string.Join(", ", one.Rules.Select(rule => $"{Reason(rule.Rule)} {GasWords.Verdict(rule)}"));
        return $"{(one.Minutes is { } minutes ? $"{minutes} min, " : "")}oxygen alone {one.OxygenAloneMinutes} min; {rules}.";
    }

    /// <summary>A failed element: <c>door DR-2.005</c>, <c>elevator C1</c>, <c>HC-2.04</c>.</summary>
    public static string Failed(PlanBResponse fallback) => fallback.FailedKind switch
    {
        ClosureTarget.Passage => PackText.Of(PackTexts.FailedDoor, fallback.Failed),
        ClosureTarget.Elevator => PackText.Of(PackTexts.FailedElevator, fallback.Failed),
        _ => fallback.Failed,
    };

    /// <summary>When it is found out + the way on =, in whole seconds that add up to the arrival, which is the way's own, rounded up.</summary>
    public static string SumOf(PlanBResponse fallback)
    {
        var (found, arrives) = (Math.Ceiling(fallback.DiscoveredSeconds - 1e-9), Math.Ceiling(fallback.ArrivalSeconds!.Value - 1e-9));
        return $"{Clock(found)} + {Clock(arrives - found)} =";
    }

    /// <summary>The way on, a place a word: <c>HC-2.09, C2, L-4.C, then as planned from HC-4.02</c>.</summary>
    public static string WayOn(PlanBResponse fallback)
    {
        var way = fallback.Via switch
        {
            [] => "",
            [var round] => PackText.Of(PackTexts.PlanBRound, round),
            [var round, ..] => PackText.Of(PackTexts.PlanBRoundBy, round, string.Join(", ", fallback.Via.Skip(1))),
        };
        way = fallback.ThroughRooms.Count == 0 ? way
            : PackText.Of(fallback.ThroughRooms.Count == 1 ? PackTexts.PlanBThroughRoom : PackTexts.PlanBThroughRooms, way, string.Join(", ", fallback.ThroughRooms));
        return fallback.RejoinsAt is { } place ? PackText.Of(PackTexts.PlanBThenPlanned, way, place) : way;
    }

    /// <summary>What is left to do where there is no way on: a bail-out point that can still be reached, never one that lies behind what has failed.</summary>
    public static string Stop(PlanBResponse fallback) => fallback.BailOuts switch
    {
        null => PackTexts.StopCall,
        [{ Seconds: 0 } here, ..] => PackText.Of(PackTexts.StopHere, here.Place),
        [var near, ..] => PackText.Of(PackTexts.StopAt, near.Place),
        [] => PackText.Of(PackTexts.StopStay, fallback.DiscoveredAt),
    };

    /// <summary>Doors of a way, landing doors left out, since an elevator counts by itself.</summary>
    public static int Doors(RouteResponse route) => route.Legs.SelectMany(leg => leg.Doors).Count(door => door.Kind != PassageKind.LandingDoor);

    /// <summary>What was assumed, in words. The API names its members; a sheet speaks of things.</summary>
    internal static string Assumed(string assumed, SiteDisplay show)
    {
        var colon = assumed.IndexOf(':', StringComparison.Ordinal);
        var (name, value) = colon < 0 ? (assumed, "") : (assumed[..colon], assumed[(colon + 1)..].Trim());
        return name switch
        {
            "departAt" => "The team leaves now.",
            "conveyance" => PackText.Of(PackTexts.AssumedIncubator, value),
            "conveyance.crew" => value.EndsWith(SiteSetting, StringComparison.Ordinal) ? PackText.Of(PackTexts.AssumedCrewSite, value[..^SiteSetting.Length]) : PackText.Of(PackTexts.AssumedCrew, value),
            "heldElevators" => PackTexts.AssumedHeld,
            "withHelper" => PackTexts.AssumedHelper,
            "incubatorSpeed" => $"The incubator goes {value} straight on.",
            "incubatorSlowSpeed" => $"In turns and over thresholds it goes {value}.",
            "reserveRule" => $"Reserve rules that the site asks for: {value}.",
            "batteryMarginPercent" => $"Of a battery's time {value} is never counted.",
            "batteryLossPercentPerYear" => $"A battery loses {value} of its time a year: common practice, unverified; the site's own policy decides.",
            "removalPercent" => $"A place is aired when {value} of what was in the air has gone.",
            "mixingFactor" => $"Air mixes with factor {value.Replace(" times", "", StringComparison.Ordinal)}.",
            "corridorAiringMinutes" => $"Corridors are left for {value}.",
            "handHygieneSeconds" => $"Each hand-hygiene step takes {value}.",
            "officers.calledAt" => "Officers are called now.",
            "officerSpeed" => $"Officers walk {value}.",
            "officerStairSpeed" => $"Officers walk {value} on stairs.",
            "postLeadSeconds" => $"An officer stands {value} before the team can be there.",
            "postMarginSeconds" => $"Between two posts an officer keeps {value} free.",
            "officerSightMetres" => $"One officer watches the doors of a place within {Metres(value, show)}.",
            "postClearSeconds" => $"Where people are asked to leave first, an officer stands {value} earlier.",
            "elevatorCaptureSeconds" => $"A car is captured {value} before the team can be on its landing.",
            "elevatorCarParkMinutes" => value.StartsWith("0 ", StringComparison.Ordinal) ? "A captured car is not parked before others ride." : $"A captured car is parked with its doors open for {value}.",
            "elevatorCarCleaningMinutes" => $"Cleaning a car takes {value}.",
            "holdMinutes" => value.StartsWith("0 ", StringComparison.Ordinal) ? "A held place is released when the team has left it." : $"A held place stays empty for {value} after the team.",
            "clearanceEachSideMillimetres" => $"On each side of what moves {value} stay free.",
            "elevatorCarsHeldFor" => $"Elevator cars are held under {value} precautions.",
            "placesClearedFor" => $"People are asked to leave held places under {value} precautions.",
            "placesClosedFor" => $"A sign closes held places for the corridors' minutes under {value} precautions.",
            "elevatorCarsCleanedFor" => $"A captured car is cleaned under {value} precautions.",
            _ when name.EndsWith("CorridorsHeldFor", StringComparison.Ordinal) => $"{char.ToUpperInvariant(name[0])}{name[1..^"CorridorsHeldFor".Length]} corridors are held under {value} precautions.",
            _ => assumed,
        };
    }

    private const string SiteSetting = ", the site's setting";

    /// <summary><c>15 m</c> in the unit in which the site reads ways.</summary>
    private static string Metres(string value, SiteDisplay show) =>
        value.EndsWith(" m", StringComparison.Ordinal) && double.TryParse(value[..^2], CultureInfo.InvariantCulture, out var metres) ? show.Length(metres) : value;

    /// <summary>Met, unknown, or short by how many minutes, rounded up.</summary>
    public static string Verdict(BatteryRuleResponse rule) => rule.Answer switch
    {
        BatteryAnswer.Met => "met",
        BatteryAnswer.Unknown => "unknown",
        _ => string.Create(CultureInfo.InvariantCulture, $"short by {Math.Ceiling(rule.RequiredMinutes - (rule.AvailableMinutes ?? 0)):0} min"),
    };

    /// <summary>Sockets by why their place counts: start, on the way, bail-out points, destination.</summary>
    public static IEnumerable<string> PlugIns(IEnumerable<PlugInPointResponse> points) =>
        from purpose in points.GroupBy(point => point.Purpose)
        let name = purpose.Key switch
        {
            PlugInPurpose.Origin => "Start",
            PlugInPurpose.OnTheWay => "On the way",
            PlugInPurpose.BailOut => "Bail-out points",
            _ => "Destination",
        }
        select $"{name}: " + string.Join("; ", purpose.Select(point => point.Place
            + (!point.HasSocket ? ", no socket written down" : point.Connectors.Count == 0 ? ", type not written down" : $", {string.Join(", ", point.Connectors)}")));

    /// <summary>What both walls have and whether the hoses fit, each time followed by the places where it is so.</summary>
    public static IEnumerable<string> Hoses(IEnumerable<OutletResponse> outlets) =>
        from at in outlets.GroupBy(outlet => (outlet.Place, outlet.Purpose))
        let wall = string.Join("; ", at.GroupBy(Wall, outlet => GasWords.Of(outlet.Gas)).Select(same => $"{string.Join(" and ", same)} {same.Key}"))
        group at.Key by wall into places
        let named = from place in places
                    group place.Place by place.Purpose into same
                    select $"{string.Join(", ", same)} ({same.Key switch { OutletPurpose.Origin => "start", OutletPurpose.Destination => "destination", _ => "bail-out" }})"
        select $"{places.Key}: {string.Join(", ", named)}";

    /// <summary>What the wall has, and whether the hose fits.</summary>
    public static string Wall(OutletResponse outlet)
    {
        var wall = outlet.Connectors.Count == 0 ? PackTexts.WallUnknown : string.Join(", ", outlet.Connectors);
        return outlet.Fit switch
        {
            HoseFit.NoOutlet => PackTexts.WallNoOutlet,
            HoseFit.Fits => PackText.Of(PackTexts.WallFits, wall),
            HoseFit.DoesNotFit => PackText.Of(PackTexts.WallFitsNot, wall),
            _ => PackText.Of(PackTexts.WallFitUnknown, wall),
        };
    }
}
