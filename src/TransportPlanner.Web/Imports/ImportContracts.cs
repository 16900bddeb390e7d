using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;

namespace TransportPlanner.Web.Imports;

/// <summary>A file of a building that is about to come. The file itself follows with PUT.</summary>
public sealed record ImportRequest : IValidatableObject
{
    /// <summary>Slug of the site: lowercase letters, digits and hyphens. A new one makes a new site when the import is published.</summary>
    [RegularExpression("^[a-z0-9-]{1,40}$", ErrorMessage = "Give 1 to 40 lowercase letters a-z, digits and hyphens.")]
    public required string SiteId { get; init; }

    /// <summary>As people call the site; left out: as it is called now. A GeoJSON file brings its own.</summary>
    [Length(1, 200, ErrorMessage = "Give 1 to 200 characters, or leave it out.")]
    public string? SiteName { get; init; }

    /// <summary>IANA time zone, such as Europe/Vienna; left out: that of the site, for a new one Etc/UTC.</summary>
    [Length(1, 60, ErrorMessage = "Give an IANA time zone, such as Europe/Vienna.")]
    public string? TimeZone { get; init; }

    /// <summary>What a reader of every page must know first, for example that the building is invented.</summary>
    [Length(1, 500, ErrorMessage = "Give 1 to 500 characters, or leave it out.")]
    public string? Notice { get; init; }

    /// <summary>Name of the file, for the list of imports.</summary>
    [Length(1, 200, ErrorMessage = "Give 1 to 200 characters.")]
    public required string FileName { get; init; }

    /// <summary>What the file is.</summary>
    public required ImportFormat Format { get; init; }

    /// <summary>The role that brings it, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that brings the file, 1 to 80 characters.")]
    public required string By { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (TimeZone is not null && !(TimeZoneInfo.TryFindSystemTimeZoneById(TimeZone, out var zone) && zone.HasIanaId))
        {
            yield return new("Give an IANA time zone that this machine knows, such as Europe/Vienna.", [nameof(TimeZone)]);
        }

        if (Format == ImportFormat.Corrections)
        {
            yield return new("Corrections have no file: begin them on the page of a place.", [nameof(Format)]);
        }

        foreach (var (name, text) in new[] { (nameof(SiteName), SiteName), (nameof(Notice), Notice), (nameof(FileName), FileName), (nameof(By), By) })
        {
            if (text is not null && (text.Trim().Length != text.Length || text.Any(char.IsControl)))
            {
                yield return new("Give a text without blanks at its ends and without control characters.", [name]);
            }
        }
    }
}

/// <summary>Answers to findings and proposed joins.</summary>
public sealed record ImportDecisionsRequest
{
    /// <summary>The role that decides, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that decides, 1 to 80 characters.")]
    public required string By { get; init; }

    /// <summary>One answer each.</summary>
    [Http.NoNullItems]
    [Length(1, 1_000, ErrorMessage = "Give 1 to 1,000 answers.")]
    public required IReadOnlyList<ImportDecisionRequest> Decisions { get; init; }
}

/// <summary>One answer.</summary>
public sealed record ImportDecisionRequest
{
    /// <summary>Key of the finding, id of the join, or key of the step.</summary>
    [Length(1, 1_100, ErrorMessage = "Give the key of a finding or of a step, or the id of a join.")]
    public required string Key { get; init; }

    /// <summary>A warning is accepted; a join is confirmed or has no way; a step holds while it is confirmed; open takes an answer or a step back.</summary>
    public required ImportAnswer Answer { get; init; }

    /// <summary>Why; required where a warning is accepted.</summary>
    [MaxLength(300, ErrorMessage = "Give at most 300 characters.")]
    public string? Reason { get; init; }
}

/// <summary>Who publishes, against which plan in force.</summary>
public sealed record PublishImportRequest
{
    /// <summary>The role that publishes, never a person's name.</summary>
    [Length(1, 80, ErrorMessage = "Give the role that publishes, 1 to 80 characters.")]
    public required string By { get; init; }

    /// <summary>Version of the plan in force that the import was compared with; 0 for a new site.</summary>
    [Range(0, int.MaxValue, ErrorMessage = "Give the version that the import was compared with, 0 for a new site.")]
    public required int ComparedWithVersion { get; init; }
}

/// <summary>Imports, the newest first.</summary>
public sealed record ImportsResponse(IReadOnlyList<ImportSummaryResponse> Imports);

/// <summary>One import in short.</summary>
public sealed record ImportSummaryResponse
{
    public required string Id { get; init; }
    public required string SiteId { get; init; }
    public required string FileName { get; init; }
    public required ImportFormat Format { get; init; }
    public required ImportState State { get; init; }
    public required string By { get; init; }
    public required DateTimeOffset CreatedAt { get; init; }

    /// <summary>What the planner does with the file just now; null when it does not read.</summary>
    public string? Step { get; init; }

    /// <summary>Version that it became; null before.</summary>
    public int? PublishedVersion { get; init; }

    internal static ImportSummaryResponse From(BuildingImport import, string? step) => new()
    {
        Id = import.Id,
        SiteId = import.SiteId,
        FileName = import.FileName,
        Format = import.Format,
        State = import.State,
        By = import.BroughtBy,
        CreatedAt = import.CreatedAt,
        Step = step,
        PublishedVersion = import.PublishedVersion,
    };
}

/// <summary>One import with everything that waits for a person.</summary>
public sealed record ImportResponse
{
    public required ImportSummaryResponse Import { get; init; }

    /// <summary>Version of the plan in force that it is compared with; 0 for a new site.</summary>
    public required int ComparedWithVersion { get; init; }
    public required int Errors { get; init; }

    /// <summary>Warnings that nobody accepted yet.</summary>
    public required int OpenWarnings { get; init; }

    /// <summary>Sorted by what they break, errors first.</summary>
    public required IReadOnlyList<ImportFindingResponse> Findings { get; init; }

    /// <summary>Proposed joins, which no file names.</summary>
    public required IReadOnlyList<ImportJoinResponse> Joins { get; init; }

    /// <summary>Steps made by hand, in their order; empty for a file.</summary>
    public required IReadOnlyList<ImportStepResponse> Steps { get; init; }

    /// <summary>Differences from the plan in force.</summary>
    public required IReadOnlyList<PlanChange> Changes { get; init; }

    internal static ImportResponse From(ImportReview review, string? step) => new()
    {
        Import = ImportSummaryResponse.From(review.Import, step),
        ComparedWithVersion = review.InForce?.Version ?? 0,
        Errors = review.Errors,
        OpenWarnings = review.Open,
        Findings = [.. review.Findings.Select(f => new ImportFindingResponse(f.Key, f.Finding.Severity, f.Finding.Subject, f.Finding.Path, f.Finding.Text, Answer(f.Decision)))],
        Joins = [.. review.Joins.Select(j => new ImportJoinResponse(j.Join.Id, j.Join.Kind, j.Join.From, j.Join.To, j.Join.Why, j.Answer, Answer(j.Decision)))],
        Steps = [.. review.Steps.Select(s => new ImportStepResponse(s.Key, s.Step.Words(), s.By, s.At, s.TakenBack is { } back ? Answer(back) : null))],
        Changes = review.Changes,
    };

    private static ImportAnswerResponse? Answer(ImportDecision? decision) =>
        decision is null ? null : new(decision.Answer, decision.Reason, decision.DecidedBy, decision.DecidedAt);
}

/// <summary>One finding, in words.</summary>
public sealed record ImportFindingResponse(string Key, FindingSeverity Severity, string Subject, string Path, string Text, ImportAnswerResponse? Answer);

/// <summary>One proposed join.</summary>
public sealed record ImportJoinResponse(string Id, PassageKind Kind, string From, string To, string Why, ImportAnswer State, ImportAnswerResponse? Answer);

/// <summary>One step made by hand; with what was said where it is taken back.</summary>
public sealed record ImportStepResponse(string Key, string Text, string By, DateTimeOffset At, ImportAnswerResponse? TakenBack);

/// <summary>What a person said, when and why.</summary>
public sealed record ImportAnswerResponse(ImportAnswer Answer, string? Reason, string By, DateTimeOffset At);

/// <summary>The version that an import became.</summary>
public sealed record ImportPublishedResponse(string SiteId, int Version, DateTimeOffset PublishedAt);
