using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Gas;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Travel;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Gas;
using TransportPlanner.Web.Posts;
using TransportPlanner.Web.Routing;

namespace TransportPlanner.Web.Plans;

/// <summary>What a binder is made from beside its choices. When one of these changes it is made again.</summary>
/// <param name="FloorPlanVersion">Version of the floor plan.</param>
/// <param name="SettingsVersion">Version of the site's settings.</param>
/// <param name="Shut">Ids of the closures in force, in order.</param>
/// <param name="Sizes">Ids of the cylinder sizes that the site added and confirmed, in order.</param>
internal sealed record BinderBasis(int FloorPlanVersion, int SettingsVersion, string Shut, string Sizes)
{
    public static async Task<BinderBasis> ReadAsync(PlannerContext context, FloorPlan plan, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var settings = await context.Sites.Where(site => site.Id == plan.SiteId).Select(site => site.SettingsVersion).SingleOrDefaultAsync(cancellationToken);
        var shut = await context.Closures.Where(closure => closure.SiteId == plan.SiteId && closure.From <= now && closure.To > now)
            .Select(closure => closure.Id).ToListAsync(cancellationToken);
        var sizes = (await CylinderChoice.ReadAsync(context, plan.SiteId, cancellationToken)).Added.Select(size => size.Id);
        return new(plan.Version, settings, string.Join(' ', shut.Order(StringComparer.Ordinal)), string.Join(' ', sizes.Order(StringComparer.Ordinal)));
    }

    /// <summary>What has changed since, a sentence each; empty where nothing has.</summary>
    public IEnumerable<string> ChangedIn(BinderBasis now)
    {
        if (now.FloorPlanVersion != FloorPlanVersion)
        {
            yield return PackText.Of(PackTexts.StalePlan, now.FloorPlanVersion, FloorPlanVersion);
        }

        if (now.Shut != Shut)
        {
            yield return PackTexts.StaleClosures;
        }

        if (now.SettingsVersion != SettingsVersion)
        {
            yield return PackTexts.StaleSettings;
        }

        if (now.Sizes != Sizes)
        {
            yield return PackTexts.StaleSizes;
        }
    }
}

/// <summary>One standing plan of the set: one pair at one of the two hours. It knows no infant and no cylinder.</summary>
/// <param name="Number">Number of the pair, from 1.</param>
/// <param name="IsNight">The second of the two hours.</param>
/// <param name="Pair">From where to where.</param>
/// <param name="At">The planned departure, UTC.</param>
internal sealed record StandingSheet(int Number, bool IsNight, StandingPair Pair, DateTimeOffset At)
{
    /// <summary>The way with the least exposure; null where there is none.</summary>
    public RouteResponse? Way { get; init; }
    public RouteGasResponse? Gas { get; init; }
    public RoutePostsResponse? Posts { get; init; }

    /// <summary>The quickest way where that is another one.</summary>
    public RouteResponse? Quicker { get; init; }

    /// <summary>Why there is no way; null where there is one.</summary>
    public Statement? NoWay { get; init; }

    /// <summary>As printed and called: <c>7D</c>, <c>7N</c>.</summary>
    public string Id => $"{Number}{(IsNight ? 'N' : 'D')}";
}

/// <summary>Standing plans for every pair of a site, as they were made.</summary>
internal sealed record Binder
{
    public required FloorPlan Plan { get; init; }
    public required BinderRequest Choices { get; init; }
    public required BinderBasis Basis { get; init; }

    /// <summary>Closures in force when it was made: every sheet leads round them.</summary>
    public required IReadOnlyList<Closure> Shut { get; init; }
    public required DateTimeOffset MadeAt { get; init; }
    public required double Seconds { get; init; }

    /// <summary>The demand that the least gauges are for; null where the support draws no gas.</summary>
    public required GasDemand? Demand { get; init; }

    /// <summary>What nobody gave, as in a plan.</summary>
    public required IReadOnlyList<string> Assumed { get; init; }

    /// <summary>By pair, the day before the night.</summary>
    public required IReadOnlyList<StandingSheet> Sheets { get; init; }

    public IReadOnlyDictionary<string, string> Names { get; init; } = new Dictionary<string, string>();
}
