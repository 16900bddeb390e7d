using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Data;

/// <summary>A row that two people may change at once. The context raises the version; a stale write throws.</summary>
internal interface IVersioned
{
    long Version { get; set; }
}

/// <summary>A hospital, known by a short slug, as its current floor plan describes it.</summary>
internal sealed class Site : IVersioned
{
    public required string Id { get; init; }
    public required string Name { get; set; }

    /// <summary>IANA time zone.</summary>
    public required string TimeZone { get; set; }
    public string? Notice { get; set; }

    /// <summary>Number of the published floor plan in force.</summary>
    public required int FloorPlanVersion { get; set; }

    /// <summary>Raised with each change of the settings.</summary>
    public int SettingsVersion { get; set; }
    public long Version { get; set; }
}

/// <summary>A floor plan as it was published: never changed.</summary>
internal sealed class FloorPlanVersion
{
    public required string SiteId { get; init; }
    public required int Number { get; init; }

    /// <summary>Canonical GeoJSON.</summary>
    public required string GeoJson { get; init; }
    public required DateTimeOffset PublishedAt { get; init; }

    /// <summary>The role that published it, never a name; null where nobody said, at the first start, and in versions of earlier releases.</summary>
    public string? PublishedBy { get; init; }
    public string? Notice { get; init; }
}

/// <summary>A place, passage or elevator out of use. It is not changed but removed, so its only version is 1.</summary>
internal sealed class SiteClosure : IVersioned
{
    public required string Id { get; init; }
    public required string SiteId { get; init; }
    public required ClosureTarget Target { get; init; }
    public required string TargetId { get; init; }
    public required DateTimeOffset From { get; init; }
    public required DateTimeOffset To { get; init; }
    public required string Reason { get; init; }

    /// <summary>The role that said so, never a name.</summary>
    public required string Source { get; init; }
    public long Version { get; set; }

    public Closure ToClosure() => new(Id, Target, TargetId, From, To, Reason, Source);
}

/// <summary>What a site said for one setting; without a row the default stands and is marked assumed.</summary>
internal sealed class SettingValue
{
    public required string SiteId { get; init; }
    public required string Name { get; init; }

    /// <summary>The value as JSON text.</summary>
    public required string Value { get; set; }

    /// <summary>The role that answers for it.</summary>
    public required string Owner { get; set; }
    public required DateOnly Date { get; set; }
}
