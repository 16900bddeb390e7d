using System.Collections.Immutable;

namespace TransportPlanner.Core.FloorPlans;

/// <summary>One turn on a crossing: the change of direction, and the clear widths of the two arms in millimetres (−1 unknown).</summary>
public readonly record struct Turn(double AngleDegrees, int WidthBeforeMillimetres, int WidthAfterMillimetres);

/// <summary>
/// The array form of a published plan, which the router reads. Vertices are traversals (a passage in one direction) and, for each
/// place, one departure and one arrival vertex at its standing point. An arc crosses one place, from the traversal that entered it to
/// the traversal that leaves it; its length, time and exposure belong to that place.
/// </summary>
/// <remarks>
/// Vertex numbers: 2p enters <c>Passages[p].To</c>, 2p + 1 enters <c>Passages[p].From</c>; 2P + 2q departs from <c>Places[q]</c>,
/// 2P + 2q + 1 arrives there. Departure vertices have no arc in, arrival vertices none out, so a way never passes through a
/// standing point. No arc returns through the passage it came from. One-way passages have no arc into the forbidden traversal.
/// </remarks>
public sealed class FloorGraph
{
    internal FloorGraph(FloorPlan plan) => Plan = plan;

    public FloorPlan Plan { get; }
    public int PassageCount => Plan.Passages.Length;
    public int PlaceCount => Plan.Places.Length;
    public int VertexCount => 2 * (PassageCount + PlaceCount);
    public int ArcCount => ArcTarget.Length;

    /// <summary>Arcs out of vertex v are <c>FirstArc[v] .. FirstArc[v + 1]</c>.</summary>
    public ImmutableArray<int> FirstArc { get; internal init; } = [];
    public ImmutableArray<int> ArcSource { get; internal init; } = [];
    public ImmutableArray<int> ArcTarget { get; internal init; } = [];

    /// <summary>Index in <c>Plan.Places</c> of the place an arc crosses.</summary>
    public ImmutableArray<int> ArcPlace { get; internal init; } = [];

    /// <summary>Shortest way inside the outline, in millimetres; 0 inside an elevator car.</summary>
    public ImmutableArray<int> ArcLength { get; internal init; } = [];

    /// <summary>The way itself as points of the outline, ends included, for drawing; two equal points inside a car.</summary>
    public ImmutableArray<ImmutableArray<PlanPoint>> ArcPath { get; internal init; } = [];

    /// <summary>Turns over 45° on the way, door lines included, in order.</summary>
    public ImmutableArray<ImmutableArray<Turn>> ArcTurns { get; internal init; } = [];

    /// <summary>Index in <c>Plan.Elevators</c> of the car an arc rides, −1 for a walk.</summary>
    public ImmutableArray<int> ArcElevator { get; internal init; } = [];

    /// <summary>Metres an arc travels up or down in a car, never negative; 0 for a walk, and for a ride through the car on one level.</summary>
    public ImmutableArray<double> ArcRiseMetres { get; internal init; } = [];

    /// <summary>
    /// By passage: walking length of a stair flight in millimetres, 0 for every other passage. It is not part of any arc's length; who
    /// walks an arc that ends in the flight's traversal walks it in addition. Where the plan's fact is unknown: twice the rise between
    /// the two levels (a slope of 30°), assumed.
    /// </summary>
    public ImmutableArray<int> FlightLength { get; internal init; } = [];

    public ImmutableDictionary<string, int> PlaceIndex { get; internal init; } = ImmutableDictionary<string, int>.Empty;
    public ImmutableDictionary<string, int> PassageIndex { get; internal init; } = ImmutableDictionary<string, int>.Empty;

    public int DepartureVertex(int place) => 2 * (PassageCount + place);
    public int ArrivalVertex(int place) => 2 * (PassageCount + place) + 1;
    public bool IsTraversal(int vertex) => vertex < 2 * PassageCount;

    /// <summary>Index of the passage that a traversal vertex goes through.</summary>
    public static int PassageOf(int traversal) => traversal / 2;

    /// <summary>Index of the place that a traversal vertex enters.</summary>
    public int PlaceEntered(int traversal) =>
        PlaceIndex[(traversal & 1) == 0 ? Plan.Passages[traversal / 2].To : Plan.Passages[traversal / 2].From];
}
