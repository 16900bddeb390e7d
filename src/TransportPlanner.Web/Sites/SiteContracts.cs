using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using System.Text.Json.Nodes;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Sites;

/// <summary>A hospital.</summary>
public sealed record SiteResponse
{
    /// <summary>Short slug that other calls name.</summary>
    public required string Id { get; init; }
    public required string Name { get; init; }

    /// <summary>IANA time zone in which occupancy, waits and closures are read.</summary>
    public required string TimeZone { get; init; }

    /// <summary>What a reader must know first, for example that the building is invented.</summary>
    public string? Notice { get; init; }

    /// <summary>Version of the floor plan in force.</summary>
    public required int FloorPlanVersion { get; init; }
    public required IReadOnlyList<LevelResponse> Levels { get; init; }
    public required int Places { get; init; }
    public required int Passages { get; init; }
    public required int Elevators { get; init; }

    internal static SiteResponse From(FloorPlan plan) => new()
    {
        Id = plan.SiteId,
        Name = plan.Name,
        TimeZone = plan.TimeZone,
        Notice = plan.Notice,
        FloorPlanVersion = plan.Version,
        Levels = [.. plan.Levels.Select(l => new LevelResponse(l.Id, l.Name, l.ElevationMetres))],
        Places = plan.Places.Length,
        Passages = plan.Passages.Length,
        Elevators = plan.Elevators.Length,
    };
}

/// <summary>A storey.</summary>
/// <param name="Number">Level number, as places name it.</param>
/// <param name="Name">Its name.</param>
/// <param name="ElevationMetres">Metres above the site's own datum.</param>
public sealed record LevelResponse(string Number, string Name, double ElevationMetres);

/// <summary>All sites of this planner.</summary>
public sealed record SitesResponse(IReadOnlyList<SiteResponse> Sites);

/// <summary>Something out of use from one instant to another.</summary>
public sealed record ClosureRequest : IValidatableObject
{
    /// <summary>What is closed.</summary>
    public required ClosureTarget Target { get; init; }

    /// <summary>Number of the place, or id of the passage or elevator.</summary>
    [Length(1, 60, ErrorMessage = "Give 1 to 60 characters.")]
    public required string TargetId { get; init; }

    /// <summary>First instant, with its offset.</summary>
    public required DateTimeOffset From { get; init; }

    /// <summary>First instant after it, with its offset; later than from.</summary>
    public required DateTimeOffset To { get; init; }

    /// <summary>Why, in words for the screen: cleaning, repair.</summary>
    [Length(1, 200, ErrorMessage = "Give 1 to 200 characters.")]
    public required string Reason { get; init; }

    /// <summary>The role that says so, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that says so, 1 to 80 characters.")]
    public required string Source { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (To <= From)
        {
            yield return new($"Give an end later than the begin {From:yyyy-MM-ddTHH:mm:ssK}.", [nameof(To)]);
        }
    }
}

/// <summary>A closure as it is kept.</summary>
public sealed record ClosureResponse
{
    public required string Id { get; init; }
    public required ClosureTarget Target { get; init; }
    public required string TargetId { get; init; }
    public required DateTimeOffset From { get; init; }
    public required DateTimeOffset To { get; init; }
    public required string Reason { get; init; }
    public required string Source { get; init; }

    /// <summary>Names it in If-Match when it is removed.</summary>
    public required long Version { get; init; }

    /// <summary>Planned transports that are not void and that it lies in the way of, by departure: tell them. Plans are not changed.</summary>
    public required IReadOnlyList<TouchedTransport> Touches { get; init; }
}

/// <summary>Closures that have not ended.</summary>
public sealed record ClosuresResponse(IReadOnlyList<ClosureResponse> Closures);

/// <summary>What a site says for itself. What is left out returns to its default, which is marked assumed.</summary>
public sealed record SettingsRequest
{
    /// <summary>Only what the site knows better than the default.</summary>
    [MaxLength(100, ErrorMessage = "Give each setting once.")]
    public required IReadOnlyList<SettingRequest> Settings { get; init; }
}

/// <summary>One setting with who answers for it and since when.</summary>
public sealed record SettingRequest
{
    /// <summary>Name as the list of settings gives it.</summary>
    [Length(1, 60, ErrorMessage = "Give the name of a setting.")]
    public required string Name { get; init; }

    /// <summary>Number, text or list, as the setting allows.</summary>
    public required JsonElement Value { get; init; }

    /// <summary>The role that answers for it, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that answers for it, 1 to 80 characters.")]
    public required string Owner { get; init; }

    /// <summary>Day since which it holds.</summary>
    public required DateOnly Date { get; init; }
}

/// <summary>Every setting, in a fixed order.</summary>
public sealed record SettingsResponse(IReadOnlyList<SettingResponse> Settings);

/// <summary>One setting: what holds now, and what may be given.</summary>
public sealed record SettingResponse
{
    public required string Name { get; init; }

    /// <summary>The value in force.</summary>
    public required JsonNode? Value { get; init; }

    /// <summary>Unit of a number; empty for text and lists.</summary>
    public required string Unit { get; init; }

    /// <summary>True where the site said nothing and the default stands.</summary>
    public required bool Assumed { get; init; }

    /// <summary>The role that answers for it; null while assumed.</summary>
    public string? Owner { get; init; }
    public DateOnly? Date { get; init; }
    public required JsonNode? Default { get; init; }

    /// <summary>What may be given, with the range.</summary>
    public required string Allowed { get; init; }
    public required string Description { get; init; }
}
