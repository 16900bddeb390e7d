using System.Collections.Immutable;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Plans;

/// <summary>Where the team may want wall gas.</summary>
public enum OutletPurpose
{
    Origin,
    BailOut,
    Destination,
}

/// <summary>Whether the hose that is carried fits the wall.</summary>
public enum HoseFit
{
    /// <summary>An outlet of the place has the connector of the hose.</summary>
    Fits,
    /// <summary>Every outlet of the place has another one.</summary>
    DoesNotFit,
    /// <summary>The connector of the hose or of an outlet is not written down: never taken for a fit.</summary>
    Unknown,
    /// <summary>The place has no outlet for this gas.</summary>
    NoOutlet,
}

/// <summary>The outlets for one gas at a place where the team may want wall gas, against the hose that is carried.</summary>
/// <param name="Purpose">Why the place counts.</param>
/// <param name="Place">Its number.</param>
/// <param name="Gas">Which gas.</param>
/// <param name="Connectors">As the floor plan writes them, each once; outlets whose connector is not written down are not in it.</param>
/// <param name="Fit">Of the hose for this gas. Connectors are compared as text, without regard to case and spaces around.</param>
public sealed record OutletOnWay(OutletPurpose Purpose, string Place, GasKind Gas, ImmutableArray<string> Connectors, HoseFit Fit)
{
    /// <summary>Origin, the bail-out points nearest to the legs in the order of the way, destination; oxygen and air at each.</summary>
    /// <param name="plan">Its facilities say which outlets there are.</param>
    /// <param name="route">The way.</param>
    /// <param name="query">From and to.</param>
    /// <param name="oxygenHose">Connector of the oxygen hose; null: not known.</param>
    /// <param name="airHose">Connector of the air hose; null: not known.</param>
    internal static ImmutableArray<OutletOnWay> Of(FloorPlan plan, Route route, RouteQuery query, string? oxygenHose, string? airHose)
    {
        List<(OutletPurpose Purpose, string Place)> places =
        [
            (OutletPurpose.Origin, query.From),
            .. from place in route.Legs.Select(leg => leg.BailOut?.Place).OfType<string>().Distinct()
               where place != query.From && place != query.To
               select (OutletPurpose.BailOut, place),
            (OutletPurpose.Destination, query.To),
        ];
        return
        [
            .. from at in places
               let place = plan.Places.Single(p => p.Number == at.Place)
               from gas in Enum.GetValues<GasKind>()
               select For(at.Purpose, place, gas, gas == GasKind.Oxygen ? oxygenHose : airHose),
        ];
    }

    private static OutletOnWay For(OutletPurpose purpose, Place place, GasKind gas, string? hose)
    {
        var kind = gas == GasKind.Oxygen ? FacilityKind.OxygenOutlet : FacilityKind.AirOutlet;
        var outlets = place.Facilities.Where(facility => facility.Kind == kind).ToList();
        var fit = outlets.Count == 0 ? HoseFit.NoOutlet
            : hose is null ? HoseFit.Unknown
            : outlets.Exists(outlet => IsSame(outlet.Connector, hose)) ? HoseFit.Fits
            : outlets.Exists(outlet => outlet.Connector is null) ? HoseFit.Unknown
            : HoseFit.DoesNotFit;
        return new(purpose, place.Number, gas, [.. outlets.Select(outlet => outlet.Connector).OfType<string>().Distinct()], fit);
    }

    private static bool IsSame(string? connector, string hose) => connector is not null && connector.Trim().Equals(hose.Trim(), StringComparison.OrdinalIgnoreCase);
}
