using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Routing;

/// <summary>A request together with what its site has set: the query, and what was taken because nobody gave it.</summary>
internal sealed record SiteRouteQuery(RouteQuery Query, IReadOnlyList<string> Assumed)
{
    public static async Task<SiteRouteQuery> ReadAsync(
        PlannerContext context, RouteRequest request, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var settings = await SiteSettings.ReadAsync(context, request.SiteId, cancellationToken);
        var departure = request.DepartAt ?? now;
        var closures = await context.Closures.AsNoTracking()
            .Where(closure => closure.SiteId == request.SiteId && closure.To > departure)
            .ToListAsync(cancellationToken);
        return From(request, settings, [.. closures.Select(closure => closure.ToClosure())], now);
    }

    private static SiteRouteQuery From(RouteRequest request, SiteSettings settings, ImmutableArray<Closure> closures, DateTimeOffset now)
    {
        var crew = settings.Get(SiteSettings.Crew);
        var incubator = Conveyance.AssumedIncubator;
        var assumed = new List<string>();
        if (request.DepartAt is null)
        {
            assumed.Add("departAt: now");
        }

        if (request.Conveyance is null)
        {
            assumed.Add(FormattableString.Invariant(
                $"conveyance: {incubator.Length.Metres:0.00} × {incubator.Width.Metres:0.00} × {incubator.Height.Metres:0.00} m, {incubator.MassKilograms:0} kg"));
        }

        if (request.Conveyance?.Crew is null)
        {
            assumed.Add(FormattableString.Invariant($"conveyance.crew: {crew}{(settings.IsAssumed(SiteSettings.Crew) ? "" : ", the site's setting")}"));
        }

        if (request.HeldElevators is null)
        {
            assumed.Add("heldElevators: true");
        }

        if (request.WithHelper is null)
        {
            assumed.Add("withHelper: true");
        }

        return new(
            new RouteQuery
            {
                From = request.From,
                To = request.To,
                Precautions = request.Precautions.ToSet(),
                Travel = new()
                {
                    Conveyance = request.Conveyance?.ToConveyance(crew)
                        ?? new(incubator.Length, incubator.Width, incubator.Height, incubator.MassKilograms, crew),
                    Departure = request.DepartAt ?? now,
                    HeldElevators = request.HeldElevators ?? true,
                    WithHelper = request.WithHelper ?? true,
                    AvoidUnknown = request.AvoidUnknown,
                    Closures = closures,
                    Settings = TravelSettingsOf(settings),
                },
                Exposure = ExposureSettingsOf(settings),
                DepartureWindow = TimeSpan.FromMinutes(request.DepartureWindowMinutes),
            },
            assumed);
    }

    internal static TravelSettings TravelSettingsOf(SiteSettings settings) => new()
    {
        ClearanceEachSide = Distance.FromMillimetres(settings.Get(SiteSettings.ClearanceEachSide)),
        Walking = Pace.FromMetresPerSecond(
            settings.Get(SiteSettings.IncubatorSpeedMinimum), settings.Get(SiteSettings.IncubatorSpeedLikely), settings.Get(SiteSettings.IncubatorSpeedMaximum)),
        Slow = Pace.FromMetresPerSecond(
            settings.Get(SiteSettings.IncubatorSlowSpeedMinimum), settings.Get(SiteSettings.IncubatorSlowSpeedLikely),
            settings.Get(SiteSettings.IncubatorSlowSpeedMaximum)),
    };

    internal static ExposureSettings ExposureSettingsOf(SiteSettings settings) => new()
    {
        RoomAirChanges = settings.Get(SiteSettings.RoomAirChanges),
        CorridorAirChanges = ImmutableDictionary.CreateRange(new[]
        {
            KeyValuePair.Create(CorridorClass.Clean, settings.Get(SiteSettings.CleanCorridorAirChanges)),
            KeyValuePair.Create(CorridorClass.Soiled, settings.Get(SiteSettings.SoiledCorridorAirChanges)),
            KeyValuePair.Create(CorridorClass.Public, settings.Get(SiteSettings.PublicCorridorAirChanges)),
            KeyValuePair.Create(CorridorClass.Restricted, settings.Get(SiteSettings.RestrictedCorridorAirChanges)),
        }),
        DecayPerHour = settings.Get(SiteSettings.SiteDecayPerHour),
        HeldClasses = ImmutableDictionary.CreateRange(new[]
        {
            KeyValuePair.Create(CorridorClass.Clean, settings.Get(SiteSettings.CleanCorridorsHeldFor)),
            KeyValuePair.Create(CorridorClass.Soiled, settings.Get(SiteSettings.SoiledCorridorsHeldFor)),
            KeyValuePair.Create(CorridorClass.Public, settings.Get(SiteSettings.PublicCorridorsHeldFor)),
            KeyValuePair.Create(CorridorClass.Restricted, settings.Get(SiteSettings.RestrictedCorridorsHeldFor)),
        }),
        HeldCars = settings.Get(SiteSettings.ElevatorCarsHeldFor),
        HoldMinutes = settings.Get(SiteSettings.HoldMinutes),
        ClosedFor = settings.Get(SiteSettings.PlacesClosedFor),
        CarParkMinutes = settings.Get(SiteSettings.ElevatorCarParkMinutes),
        AiringMinutes = settings.Get(SiteSettings.CorridorAiringMinutes),
        Crowds = new(settings.Get(UpkeepSettings.CrowdCalendar)),
    };
}
