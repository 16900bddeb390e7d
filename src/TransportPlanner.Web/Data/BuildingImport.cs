namespace TransportPlanner.Web.Data;

/// <summary>What kind of file an import reads.</summary>
public enum ImportFormat
{
    /// <summary>A COBie 2.4 workbook, .xlsx.</summary>
    Cobie,
    /// <summary>The planner's own floor plan as GeoJSON.</summary>
    GeoJson,
    /// <summary>Facts of the plan in force as an edited CSV table.</summary>
    Facts,
    /// <summary>OpenStreetMap data after Simple Indoor Tagging, as OSM XML or as GeoJSON.</summary>
    Osm,
    /// <summary>No file: steps that persons make by hand on the plan in force. Begun on the page of a place.</summary>
    Corrections,
}

/// <summary>Where an import stands.</summary>
public enum ImportState
{
    /// <summary>No file yet.</summary>
    Waiting,
    Reading,
    /// <summary>Read: findings wait for a person.</summary>
    Draft,
    /// <summary>The file cannot be read; the findings say why.</summary>
    Refused,
    /// <summary>A person stopped it, or the planner was restarted while it read.</summary>
    Cancelled,
    Published,
}

/// <summary>One file of a building on its way to a published floor plan.</summary>
internal sealed class BuildingImport : IVersioned
{
    /// <summary>128 random bits in hexadecimal.</summary>
    public required string Id { get; init; }

    /// <summary>Slug of the site; it need not exist yet.</summary>
    public required string SiteId { get; init; }
    public required string SiteName { get; init; }

    /// <summary>IANA time zone.</summary>
    public required string TimeZone { get; init; }
    public string? Notice { get; init; }
    public required string FileName { get; init; }
    public required ImportFormat Format { get; init; }

    /// <summary>The role that brought the file, never a name.</summary>
    public required string BroughtBy { get; init; }
    public required DateTimeOffset CreatedAt { get; init; }
    public ImportState State { get; set; }

    /// <summary>Canonical GeoJSON with every proposed join in it; null until the file was read.</summary>
    public string? Draft { get; set; }

    /// <summary>Proposed joins as JSON.</summary>
    public string? Joins { get; set; }

    /// <summary>What the file itself says wrong or leaves open, as JSON.</summary>
    public string? Findings { get; set; }
    public int? PublishedVersion { get; set; }
    public DateTimeOffset? PublishedAt { get; set; }

    /// <summary>The role that published it.</summary>
    public string? PublishedBy { get; set; }
    public long Version { get; set; }
}

/// <summary>What a person said of one finding or one proposed join. Only added; the last one about a key holds.</summary>
internal sealed class ImportDecision
{
    public required string ImportId { get; init; }

    /// <summary>1 for the first of its import.</summary>
    public required int Number { get; init; }

    /// <summary>Key of the finding, id of the join, or the key of a step made by hand.</summary>
    public required string Key { get; init; }

    /// <summary>The words it was given to; of a step made by hand the step as JSON.</summary>
    public required string About { get; init; }
    public required ImportAnswer Answer { get; init; }
    public string? Reason { get; init; }

    /// <summary>The role that decided, never a name.</summary>
    public required string DecidedBy { get; init; }
    public required DateTimeOffset DecidedAt { get; init; }
}

/// <summary>What a person says of a finding or of a proposed join.</summary>
public enum ImportAnswer
{
    /// <summary>Not decided, or taken back.</summary>
    Open,
    /// <summary>A warning is accepted, with a reason.</summary>
    Accepted,
    /// <summary>The join is there: somebody looked.</summary>
    Confirmed,
    /// <summary>No way leads there.</summary>
    NoWay,
}
