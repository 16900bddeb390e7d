using System.ComponentModel.DataAnnotations;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>How something stands against the plan. The value itself is not asked for and not kept.</summary>
public enum AgainstPlan
{
    Same,
    Changed,
}

/// <summary>What may have changed since the plan was made, looked at once more.</summary>
public sealed record RecheckRequest
{
    /// <summary>Who looked.</summary>
    public required PlanRole Role { get; init; }

    /// <summary>Id of the way that is taken, A to D.</summary>
    [Length(1, 10, ErrorMessage = "Give the id of a way of this plan, such as A.")]
    public required string Way { get; init; }

    /// <summary>The breathing support.</summary>
    public required AgainstPlan Support { get; init; }

    /// <summary>The set flow.</summary>
    public required AgainstPlan Flow { get; init; }

    /// <summary>The oxygen fraction.</summary>
    public required AgainstPlan OxygenFraction { get; init; }

    /// <summary>Who goes along.</summary>
    public required AgainstPlan Crew { get; init; }

    /// <summary>What people know of the way. Closures that the planner knows count by themselves.</summary>
    public required AgainstPlan OnTheWay { get; init; }

    /// <summary>Every cylinder of the plan read again, in the order of the plan; empty where the plan has none.</summary>
    [NoNullItems, MaxLength(12, ErrorMessage = "Give at most 12 readings.")]
    public required IReadOnlyList<GaugeAgainRequest> Gauges { get; init; }
}

/// <summary>One gauge, read again: exactly one unit.</summary>
public sealed record GaugeAgainRequest : IValidatableObject
{
    /// <summary>In psi, 0 to 3,300.</summary>
    [Range(0, 3_300.0, ErrorMessage = "Give 0 to 3300 psi.")]
    public decimal? GaugePsi { get; init; }

    /// <summary>In bar, 0 to 300.</summary>
    [Range(0, 300.0, ErrorMessage = "Give 0 to 300 bar.")]
    public decimal? GaugeBar { get; init; }

    /// <summary>In kPa, 0 to 30,000.</summary>
    [Range(0, 30_000.0, ErrorMessage = "Give 0 to 30000 kPa.")]
    public decimal? GaugeKpa { get; init; }

    public IEnumerable<ValidationResult> Validate(ValidationContext validationContext)
    {
        if (new[] { GaugePsi, GaugeBar, GaugeKpa }.Count(gauge => gauge is not null) != 1)
        {
            yield return new("Give exactly one of gaugePsi, gaugeBar, gaugeKpa.", [nameof(GaugePsi)]);
        }
    }
}

/// <summary>One of the two says go.</summary>
public sealed record VoiceRequest
{
    /// <summary>teamLead or security.</summary>
    public required PlanRole Role { get; init; }

    /// <summary>Id of the way that is taken, A to D.</summary>
    [Length(1, 10, ErrorMessage = "Give the id of a way of this plan, such as A.")]
    public required string Way { get; init; }
}

/// <summary>Somebody names the way that is taken.</summary>
public sealed record WayRequest
{
    /// <summary>Who says so.</summary>
    public required PlanRole Role { get; init; }

    /// <summary>Id of the way, A to D.</summary>
    [Length(1, 10, ErrorMessage = "Give the id of a way of this plan, such as A.")]
    public required string Way { get; init; }
}

/// <summary>Somebody says stop: everything said before is taken back.</summary>
public sealed record StopRequest
{
    /// <summary>Who says so: anybody may.</summary>
    public required PlanRole Role { get; init; }
}

/// <summary>Whether go is given: two persons' words, kept as they were spoken.</summary>
public sealed record GoResponse
{
    /// <summary>Random id that names the transport.</summary>
    public required string PlanId { get; init; }

    /// <summary>The newest version: words about an older one do not stand.</summary>
    public required int PlanVersion { get; init; }

    /// <summary>The way that is spoken about; null while nothing that was said stands.</summary>
    public required string? Way { get; init; }

    /// <summary>The way that calls, cards and desk speak of: the one that the last word about this version named, else the least exposed.</summary>
    public required string WayTaken { get; init; }

    /// <summary>Somebody has named that way; false: it is the least exposed, and nobody has said anything yet.</summary>
    public required bool IsWayChosen { get; init; }

    /// <summary>When the last of both voices and the re-check came; null while go is not given.</summary>
    public required DateTimeOffset? GivenAt { get; init; }

    /// <summary>What is missing; empty exactly when go is given.</summary>
    public required IReadOnlyList<GoMissing> Missing { get; init; }

    /// <summary>The last re-check that stands; null where none does.</summary>
    public required RecheckResponse? Recheck { get; init; }

    /// <summary>When the team lead said go; null where that word does not stand.</summary>
    public required DateTimeOffset? TeamLeadAt { get; init; }

    /// <summary>When security said go; null where that word does not stand.</summary>
    public required DateTimeOffset? SecurityAt { get; init; }

    /// <summary>Why words that were spoken do not stand any more, a sentence; null where none was taken back.</summary>
    public required string? TakenBack { get; init; }

    /// <summary>Closures that touch the way now, a sentence each.</summary>
    public required IReadOnlyList<string> Closures { get; init; }

    /// <summary>How old the re-check may be when go is given, minutes.</summary>
    public required int StaleMinutes { get; init; }

    /// <summary>Nothing counts after this instant.</summary>
    public required DateTimeOffset VoidAfter { get; init; }

    /// <summary>Send it as If-Match with the next word. It changes with each word and each version of the plan.</summary>
    public required string ETag { get; init; }
}

/// <summary>What a re-check found.</summary>
/// <param name="Role">Who looked.</param>
/// <param name="At">When.</param>
/// <param name="Changed">What is not as the plan says.</param>
/// <param name="Gas">What the readings give now, in a sentence.</param>
public sealed record RecheckResponse(PlanRole Role, DateTimeOffset At, IReadOnlyList<GoItem> Changed, string Gas);
