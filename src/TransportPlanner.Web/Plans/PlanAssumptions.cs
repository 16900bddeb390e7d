using System.Text.Json.Nodes;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;

namespace TransportPlanner.Web.Plans;

/// <summary>What a plan counted with that the site has not said: each setting that was used, with its default.</summary>
internal static class PlanAssumptions
{
    public static IEnumerable<string> Of(SiteSettings settings, PlanRequest request, IReadOnlyList<Cylinder> cylinders, FloorGraph graph, TransportPlan plan) =>
        [.. AssumedSpeed(settings), .. AssumedSettings(settings, request, graph, plan), .. AssumedCylinders(cylinders)];

    private static readonly Setting[] PostSettingsShown =
    [
        SiteSettings.OfficerSpeed, SiteSettings.OfficerStairSpeed, SiteSettings.PostLeadSeconds, SiteSettings.PostMarginSeconds, SiteSettings.OfficerSightMetres,
    ];

    private static IEnumerable<string> AssumedSpeed(SiteSettings settings)
    {
        Setting<double>[] straight = [SiteSettings.IncubatorSpeedMinimum, SiteSettings.IncubatorSpeedLikely, SiteSettings.IncubatorSpeedMaximum];
        Setting<double>[] slow = [SiteSettings.IncubatorSlowSpeedMinimum, SiteSettings.IncubatorSlowSpeedLikely, SiteSettings.IncubatorSlowSpeedMaximum];
        return
            from pace in new[] { (Name: "incubatorSpeed", Speeds: straight), (Name: "incubatorSlowSpeed", Speeds: slow) }
            where pace.Speeds.Any(settings.IsAssumed)
            select FormattableString.Invariant($"{pace.Name}: {settings.Get(pace.Speeds[0]):0.##} to {settings.Get(pace.Speeds[2]):0.##} m/s, likely {settings.Get(pace.Speeds[1]):0.##}");
    }

    private static IEnumerable<string> AssumedSettings(SiteSettings settings, PlanRequest request, FloorGraph graph, TransportPlan plan)
    {
        Setting[] used =
        [
            SiteSettings.ReserveRule, SiteSettings.RemovalPercent, SiteSettings.MixingFactor, SiteSettings.CorridorAiringMinutes, SiteSettings.HandHygieneSeconds,
            SiteSettings.ClearanceEachSide, .. PostSettingsShown,
            .. request.Batteries.Count > 0 ? new Setting[] { SiteSettings.BatteryMarginPercent, SiteSettings.BatteryLossPercentPerYear } : [],
            .. Held(graph, plan),
        ];
        return used.Where(settings.IsAssumed).Select(setting => $"{setting.Name}: {Default(setting)} {setting.Unit}".TrimEnd());
    }

    /// <summary>What decides which places and cars on the ways are held, for how long, and what is done with them afterwards.</summary>
    private static IEnumerable<Setting> Held(FloorGraph graph, TransportPlan plan)
    {
        var places = plan.Routes.Routes.SelectMany(route => route.Arcs).Select(arc => graph.Plan.Places[graph.ArcPlace[arc]]).Distinct().ToList();
        var corridors = places.Select(place => place.CorridorClass).ToHashSet();
        foreach (var (corridor, setting) in new[]
        {
            (CorridorClass.Clean, SiteSettings.CleanCorridorsHeldFor), (CorridorClass.Soiled, SiteSettings.SoiledCorridorsHeldFor),
            (CorridorClass.Public, SiteSettings.PublicCorridorsHeldFor), (CorridorClass.Restricted, SiteSettings.RestrictedCorridorsHeldFor),
        })
        {
            if (corridors.Contains(corridor))
            {
                yield return setting;
            }
        }

        var posts = plan.PostsByRoute.Select(route => route.Posts).ToList();
        if (posts.Any(one => !one.Places.IsEmpty))
        {
            yield return SiteSettings.HoldMinutes;
            yield return SiteSettings.PlacesClearedFor;
            yield return SiteSettings.PlacesClosedFor;
        }

        if (posts.SelectMany(one => one.Places).Any(held => held.IsCleared))
        {
            yield return SiteSettings.PostClearSeconds;
        }

        if (places.Any(place => place.Kind == PlaceKind.ElevatorCar))
        {
            yield return SiteSettings.ElevatorCarsHeldFor;
        }

        var captured = posts.SelectMany(one => one.Elevators).ToList();
        if (captured.Count > 0)
        {
            yield return SiteSettings.ElevatorCaptureSeconds;
            yield return SiteSettings.ElevatorCarParkMinutes;
            yield return SiteSettings.ElevatorCarsCleanedFor;
        }

        if (captured.Exists(car => car.IsCleaned))
        {
            yield return SiteSettings.ElevatorCarCleaningMinutes;
        }
    }

    /// <summary>A list in words: <c>contact, airborne</c>, or <c>no</c> for an empty one.</summary>
    private static string Default(Setting setting) => setting.Default is JsonArray list
        ? list.Count == 0 ? "no" : string.Join(", ", list.Select(one => $"{one}"))
        : $"{setting.Default}";

    private static IEnumerable<string> AssumedCylinders(IReadOnlyList<Cylinder> cylinders) =>
    [
        .. cylinders.Where(cylinder => cylinder.SizeIsAssumed)
            .Select(cylinder => $"{GasWords.Of(cylinder.Gas)} cylinder: {cylinder.Capacity.Size!.Id}, which the site presets").Distinct(),
        .. cylinders.Where(cylinder => cylinder.ResidualIsAssumed)
            .Select(cylinder => $"residual of the {GasWords.Of(cylinder.Gas)} cylinder: {cylinder.Residual}").Distinct(),
    ];
}
