using System.Globalization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Web.FloorPlans;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Http;
using TransportPlanner.Web.Routing;

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

    /// <summary>At most one decimal, two below one: enough to compare ways and no more.</summary>
    public static string Count(double value) => value.ToString(value < 1 ? "0.##" : "0.#", CultureInfo.InvariantCulture);

    public static string Of(IEnumerable<Precaution> precautions) => string.Join(", ", precautions.Select(p => p.ToString().ToLowerInvariant()));

    public static string Reason(string reason) => reason.Replace('-', ' ');

    public static string Of(SheetPart part) => part switch
    {
        SheetPart.FloorPlans => "floor plans",
        SheetPart.Wear => "protective wear",
        SheetPart.PlanB => "plan B",
        SheetPart.Basis => "assumed and cautions",
        _ => part.ToString().ToLowerInvariant(),
    };

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

    public static string Of(DoorOnWay door) =>
        $"{FloorPlanWords.Of(door.Kind)} {door.Passage}" + (door.Access == AccessControl.None ? "" : $", {door.Access.ToString().ToLowerInvariant()}");

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
        ClosureTarget.Passage => $"door {fallback.Failed}",
        ClosureTarget.Elevator => $"elevator {fallback.Failed}",
        _ => fallback.Failed,
    };

    /// <summary>The way on, a place a word: <c>HC-2.09, C2, L-4.C, then as planned from HC-4.02</c>.</summary>
    public static string WayOn(PlanBResponse fallback) =>
        string.Join(", ", fallback.Via.Skip(1).Prepend(fallback.Via.Count > 0 ? $"round in {fallback.Via[0]}" : ""))
        + (fallback.ThroughRooms.Count > 0 ? $" (through {(fallback.ThroughRooms.Count == 1 ? "room" : "rooms")} {string.Join(", ", fallback.ThroughRooms)}: ask there first)" : "")
        + (fallback.RejoinsAt is { } place ? $", then as planned from {place}" : "");

    /// <summary>Doors of a way, landing doors left out, since an elevator counts by itself.</summary>
    public static int Doors(RouteResponse route) => route.Legs.SelectMany(leg => leg.Doors).Count(door => door.Kind != PassageKind.LandingDoor);

    /// <summary>What was assumed, in words. The API names its members; a sheet speaks of things.</summary>
    public static string Assumed(string assumed)
    {
        var colon = assumed.IndexOf(':', StringComparison.Ordinal);
        var (name, value) = colon < 0 ? (assumed, "") : (assumed[..colon], assumed[(colon + 1)..].Trim());
        return name switch
        {
            "departAt" => "The team leaves now.",
            "conveyance" => $"The incubator measures {value}.",
            "conveyance.crew" => $"Crew beside it: {value}.",
            "heldElevators" => "Elevators that can be held are held.",
            "withHelper" => "A clean helper goes ahead.",
            "reserveRule" => $"Reserve rules that the site asks for: {value}.",
            "removalPercent" => $"A place is aired when {value} of what was in the air has gone.",
            "mixingFactor" => $"Air mixes with factor {value.Replace(" times", "", StringComparison.Ordinal)}.",
            "corridorAiringMinutes" => $"Corridors are left for {value}.",
            "officers.calledAt" => "Officers are called now.",
            "officerSpeed" => $"Officers walk {value}.",
            "officerStairSpeed" => $"Officers walk {value} on stairs.",
            "postLeadSeconds" => $"An officer stands {value} before the team can be there.",
            "postMarginSeconds" => $"Between two posts an officer keeps {value} free.",
            "officerSightMetres" => $"One officer watches the doors of a place within {value}.",
            _ => assumed,
        };
    }

    /// <summary>Where, which gas, what the wall has, and whether the hose fits.</summary>
    public static string Of(OutletResponse outlet)
    {
        var where = outlet.Purpose switch { OutletPurpose.Origin => "start", OutletPurpose.Destination => "destination", _ => "bail-out point" };
        var wall = outlet.Connectors.Count == 0 ? "connector not written down" : string.Join(", ", outlet.Connectors);
        return $"{outlet.Place}, {where}, {GasWords.Of(outlet.Gas)}: " + outlet.Fit switch
        {
            HoseFit.NoOutlet => "no outlet",
            HoseFit.Fits => $"{wall}, the hose fits",
            HoseFit.DoesNotFit => $"{wall}, the hose does not fit",
            _ => $"{wall}, unknown whether the hose fits",
        };
    }
}
