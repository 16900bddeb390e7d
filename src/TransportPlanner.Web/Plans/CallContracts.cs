using TransportPlanner.Core.Plans;

namespace TransportPlanner.Web.Plans;

/// <summary>Where one call stands.</summary>
public enum CallState
{
    /// <summary>Nobody has called, or what was said then has changed since.</summary>
    Open,
    Called,
    Acknowledged,
}

/// <summary>What became of one call.</summary>
public sealed record CallRequest
{
    /// <summary>called: the message was given. acknowledged: the role has answered. open: begin anew.</summary>
    public required CallState State { get; init; }
}

/// <summary>Whom to call for the newest version of a plan, and who has answered.</summary>
public sealed record CallsResponse
{
    /// <summary>Random id that names the transport.</summary>
    public required string PlanId { get; init; }

    /// <summary>The newest version: its messages are listed.</summary>
    public required int PlanVersion { get; init; }

    /// <summary>Id of the way that the messages speak of: the one that is taken, see the go of the plan.</summary>
    public required string Way { get; init; }

    /// <summary>Roles that have acknowledged what the newest version says.</summary>
    public required int Acknowledged { get; init; }

    /// <summary>In the order of the journey.</summary>
    public required IReadOnlyList<CallResponse> Calls { get; init; }
}

/// <summary>One call.</summary>
public sealed record CallResponse
{
    /// <summary>Who is called.</summary>
    public required PlanRole Role { get; init; }

    /// <summary>What the site calls this role.</summary>
    public required string Title { get; init; }

    /// <summary>What to say or send: call-sign, category of precautions, place and time, and nothing of the infant.</summary>
    public required string Message { get; init; }

    /// <summary>open, called or acknowledged.</summary>
    public required CallState State { get; init; }

    /// <summary>When the message was given; null where it was not.</summary>
    public required DateTimeOffset? CalledAt { get; init; }

    /// <summary>When the role answered; null where it has not.</summary>
    public required DateTimeOffset? AcknowledgedAt { get; init; }

    /// <summary>The version whose message was given although the newest says something else: call again. Null where that is not so.</summary>
    public required int? OutOfDateSince { get; init; }

    /// <summary>The way that was spoken of then. Null where the call is not out of date.</summary>
    public required string? OutOfDateWay { get; init; }

    /// <summary>Send it as If-Match to change the call. It changes with each entry, with each version of the plan and with the way that is taken.</summary>
    public required string ETag { get; init; }
}
