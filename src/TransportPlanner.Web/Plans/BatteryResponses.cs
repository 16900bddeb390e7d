using TransportPlanner.Core.Plans;

namespace TransportPlanner.Web.Plans;

/// <summary>The batteries against one way. Every device is taken to run on its battery from leaving to arrival.</summary>
public sealed record RouteBatteriesResponse
{
    /// <summary>Id of the way.</summary>
    public required string Route { get; init; }

    /// <summary>Number of the weakest battery that is known, from 1; null: none is known.</summary>
    public required int? FirstToDie { get; init; }

    /// <summary>Numbers of the batteries of which too little is known, from 1; each may well be the first to die.</summary>
    public required IReadOnlyList<int> Unknown { get; init; }

    /// <summary>Every rule of gas for the usual and the nearly-always time, and the worst arrival by plan B where that is known; empty without a battery.</summary>
    public required IReadOnlyList<BatteryVerdictResponse> Verdicts { get; init; }

    /// <summary>What the weakest known battery has left when each leg begins; empty without a battery.</summary>
    public required IReadOnlyList<BatteryAtLegResponse> Legs { get; init; }

    /// <summary>Minutes left in it, rounded down, on reaching the elevator where least is left, if it then stalls; null without an elevator or a known battery.</summary>
    public required long? MinutesIfStuck { get; init; }

    /// <summary>Sockets at the start, on the way, at the bail-out points nearest to the legs, and at the destination.</summary>
    public required IReadOnlyList<PlugInPointResponse> PlugInPoints { get; init; }
    public required IReadOnlyList<string> Cautions { get; init; }

    internal static RouteBatteriesResponse From(BatteriesOfRoute batteries, Core.Routing.Route route) => new()
    {
        Route = batteries.RouteId,
        FirstToDie = batteries.FirstToDie + 1,
        Unknown = [.. batteries.Unknown.Select(place => place + 1)],
        Verdicts = [.. batteries.Verdicts.Select(BatteryVerdictResponse.From)],
        Legs =
        [
            .. batteries.Legs.Select(at => new BatteryAtLegResponse(
                at.Leg + 1, route.Legs[at.Leg] is var leg && leg.Ride is { } ride ? ride.Name : leg.FromPlace, leg.Ride is not null, at.AtMinute, at.MinutesLeft)),
        ],
        MinutesIfStuck = batteries.MinutesIfStuck,
        PlugInPoints = [.. batteries.PlugInPoints.Select(point => new PlugInPointResponse(point.Purpose, point.Place, point.HasSocket, [.. point.Connectors]))],
        Cautions = BatteriesOfRoute.Cautions,
    };
}

/// <summary>Every rule for one time of the way.</summary>
/// <param name="Time">Usually (half of such journeys take no longer), nearly always (nine in ten), or the worst arrival by plan B.</param>
/// <param name="JourneyMinutes">That time, min, rounded up to a tenth.</param>
/// <param name="Rules">Each reserve rule, the same as for gas.</param>
public sealed record BatteryVerdictResponse(JourneyTimeKind Time, decimal JourneyMinutes, IReadOnlyList<BatteryRuleResponse> Rules)
{
    internal static BatteryVerdictResponse From(BatteryVerdict verdict) => new(
        verdict.Time, verdict.JourneyMinutes,
        [.. verdict.Rules.Select(rule => new BatteryRuleResponse(rule.Rule.Id, rule.RequiredMinutes, rule.AvailableMinutes, rule.Answer, rule.Working, rule.Rule.Source))]);
}

/// <summary>One reserve rule against the weakest battery.</summary>
/// <param name="Rule">Its stable name.</param>
/// <param name="RequiredMinutes">What it asks for, min.</param>
/// <param name="AvailableMinutes">Of the weakest battery that is known, rounded down; null: none is known.</param>
/// <param name="Answer">Met, short, or unknown: the known ones would do, and of at least one too little is known.</param>
/// <param name="Working">Both figures.</param>
/// <param name="Source">Where the rule comes from.</param>
public sealed record BatteryRuleResponse(string Rule, decimal RequiredMinutes, long? AvailableMinutes, BatteryAnswer Answer, string Working, string Source);

/// <summary>The weakest known battery when a leg begins.</summary>
/// <param name="Leg">Number of the leg, from 1.</param>
/// <param name="Where">Its first place, or the name of the elevator.</param>
/// <param name="IsRide">Whether the leg is a ride.</param>
/// <param name="AtMinute">Minutes after leaving, of the nearly-always time.</param>
/// <param name="MinutesLeft">Rounded down, never below 0; null: unknown.</param>
public sealed record BatteryAtLegResponse(int Leg, string Where, bool IsRide, decimal AtMinute, long? MinutesLeft);

/// <summary>A place where devices can be plugged in.</summary>
/// <param name="Purpose">Why it counts.</param>
/// <param name="Place">Its number.</param>
/// <param name="HasSocket">False: the floor plan writes none down there.</param>
/// <param name="Connectors">As the floor plan writes them.</param>
public sealed record PlugInPointResponse(PlugInPurpose Purpose, string Place, bool HasSocket, IReadOnlyList<string> Connectors);
