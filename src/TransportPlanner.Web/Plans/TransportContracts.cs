using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>The transports of a site that are on the way or leave within 12 hours.</summary>
/// <param name="SiteId">Slug of the site.</param>
/// <param name="AsOf">The instant of the answer.</param>
/// <param name="Transports">By departure.</param>
public sealed record TransportsResponse(string SiteId, DateTimeOffset AsOf, IReadOnlyList<TransportResponse> Transports);

/// <summary>One transport, as the duty desk sees it.</summary>
public sealed record TransportResponse
{
    /// <summary>Random id that names the transport and its plan.</summary>
    public required string PlanId { get; init; }

    /// <summary>Two words for radio and paper.</summary>
    public required string CallSign { get; init; }

    /// <summary>The newest version of the plan.</summary>
    public required int Version { get; init; }

    /// <summary>Number of the place where it starts.</summary>
    public required string From { get; init; }

    /// <summary>Number of the place where it ends.</summary>
    public required string To { get; init; }

    /// <summary>Precautions in force.</summary>
    public required IReadOnlyList<Precaution> Precautions { get; init; }

    /// <summary>The way that the re-check and the voices are about, else the least exposed.</summary>
    public required string Way { get; init; }

    /// <summary>When the team leaves.</summary>
    public required DateTimeOffset DepartAt { get; init; }

    /// <summary>Half of such journeys have arrived by then.</summary>
    public required DateTimeOffset UsuallyThereAt { get; init; }

    /// <summary>Nine in ten have arrived by then.</summary>
    public required DateTimeOffset NearlyAlwaysThereAt { get; init; }

    /// <summary>The plan must not be used after this instant.</summary>
    public required DateTimeOffset VoidAfter { get; init; }

    /// <summary>The plan is void. It is listed until its last post is released and nine in ten such journeys have arrived: its team may still be on the way.</summary>
    public required bool IsVoid { get; init; }

    /// <summary>Roles that have acknowledged what the newest version says.</summary>
    public required IReadOnlyList<PlanRole> Acknowledged { get; init; }

    /// <summary>Roles that have not.</summary>
    public required IReadOnlyList<PlanRole> NotAcknowledged { get; init; }

    /// <summary>When go was given; null while it is not.</summary>
    public required DateTimeOffset? GoGivenAt { get; init; }

    /// <summary>What go lacks.</summary>
    public required IReadOnlyList<GoMissing> GoMissing { get; init; }

    /// <summary>Why words that were spoken do not stand any more; null where none was taken back.</summary>
    public required string? TakenBack { get; init; }

    /// <summary>Posts on the way, in order of time.</summary>
    public required IReadOnlyList<TransportPostResponse> Posts { get; init; }
}

/// <summary>One post of a transport.</summary>
/// <param name="Post">P1, P2 … as on the cards.</param>
/// <param name="Place">Number of the place.</param>
/// <param name="Passage">Id of the passage at which the officer stands.</param>
/// <param name="From">From when.</param>
/// <param name="To">Until when, and by word.</param>
public sealed record TransportPostResponse(string Post, string Place, string Passage, DateTimeOffset From, DateTimeOffset To);
