using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Data;

/// <summary>A published plan with the arrays made from it. A request keeps the one it began with.</summary>
internal sealed record FloorPlanSnapshot(FloorPlan Plan, FloorGraph Graph)
{
    public FloorPlanSnapshot(FloorPlan plan) : this(plan, FloorGraphBuilder.Build(plan))
    {
    }
}

/// <summary>The plan in force of each site, in memory. Publishing swaps it.</summary>
internal sealed class FloorPlanStore
{
    private ImmutableSortedDictionary<string, FloorPlanSnapshot> _current = ImmutableSortedDictionary.Create<string, FloorPlanSnapshot>(StringComparer.Ordinal);

    public IReadOnlyCollection<FloorPlanSnapshot> Sites => [.. _current.Values];

    /// <summary>Where nobody names a site: a hospital's own goes before the demonstration.</summary>
    public FloorPlanSnapshot? Default =>
        _current.Values.FirstOrDefault(site => site.Plan.SiteId != StartUp.DemonstrationSite) ?? _current.Values.FirstOrDefault();

    public bool TryFind(string siteId, [NotNullWhen(true)] out FloorPlanSnapshot? snapshot) => _current.TryGetValue(siteId, out snapshot);

    public void Publish(FloorPlanSnapshot snapshot) =>
        ImmutableInterlocked.Update(ref _current, (sites, published) => sites.SetItem(published.Plan.SiteId, published), snapshot);
}
