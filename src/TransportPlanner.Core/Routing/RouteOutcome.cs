using System.Collections.Immutable;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>Why there is no way. Closed list; the caller's address for each is a stable code.</summary>
public enum NoRouteReason
{
    /// <summary>The floor plan has no place of the origin's number, or it is an elevator car.</summary>
    UnknownOrigin,
    /// <summary>The floor plan has no place of the destination's number, or it is an elevator car.</summary>
    UnknownDestination,
    /// <summary>Origin and destination are one place.</summary>
    SamePlace,
    /// <summary>Nothing leads there, whatever moves: the two lie in separate parts of the floor plan, or one-way doors are against it.</summary>
    NotConnected,
    /// <summary>Every way has something that the conveyance does not pass; on the way with the fewest of them the first is named, of what is too narrow the tightest.</summary>
    Blocked,
}

/// <summary>A way that is not shown, and why.</summary>
/// <param name="Way">What people call it by: an obstacle, a place, a group of elevators.</param>
/// <param name="Sentence">One sentence: place, figure, difference.</param>
public sealed record NotChosen(string Way, string Sentence);

/// <summary>Costs of one efficient way, for the picture.</summary>
/// <param name="ExpectedSeconds">Expected time.</param>
/// <param name="ExposureCost">What the precautions in force count: person-minutes, or touch points for contact alone.</param>
/// <param name="Handling">Handling points.</param>
public readonly record struct FrontPoint(double ExpectedSeconds, double ExposureCost, int Handling);

/// <summary>The ways shown, out of the exact set.</summary>
public sealed record RouteSet
{
    /// <summary>One to four ways, quickest first.</summary>
    public required ImmutableArray<Route> Routes { get; init; }

    /// <summary>Every efficient way, quickest first; its length is the size of the exact set.</summary>
    public required ImmutableArray<FrontPoint> Front { get; init; }

    /// <summary>False when the deadline passed before the set was exact.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>
    /// Every way that is missing has one in <see cref="Front"/> at most (1 + ε) times as costly in each cost. 0: nothing is missing. Null: the
    /// deadline passed too early to promise anything.
    /// </summary>
    public required double? Epsilon { get; init; }

    /// <summary>The departure and the later quarter-hours of the window, in order; empty without a window, or where the deadline passed before the set was exact; it ends before the first that was not exact by then.</summary>
    public required ImmutableArray<Departure> Departures { get; init; }

    /// <summary>The later departure with the least exposure; null where none leaves a tenth of it out.</summary>
    public Departure? BestDeparture => DepartureWindow.Best(Departures);

    /// <summary>Ways that a planner would expect and does not see.</summary>
    public required ImmutableArray<NotChosen> NotChosen { get; init; }
}

/// <summary>Answer to a query: ways, or why there is none.</summary>
public abstract record RouteOutcome
{
    private RouteOutcome()
    {
    }

    public sealed record Found(RouteSet Set) : RouteOutcome;

    /// <param name="Reason">Why.</param>
    /// <param name="Where">The number or id that the statement is about.</param>
    /// <param name="Statement">Why, with the figure that fails.</param>
    /// <param name="Obstacle">What is named as in the way, for <see cref="NoRouteReason.Blocked"/>.</param>
    public sealed record None(NoRouteReason Reason, string Where, Statement Statement, Obstacle? Obstacle = null) : RouteOutcome
    {
        /// <summary>The statement in English, one to three whole sentences.</summary>
        public string Sentence => Statement.Sentence;
    }
}
