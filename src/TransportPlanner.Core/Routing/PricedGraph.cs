using System.Collections;
using System.Runtime.CompilerServices;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Routing;

/// <summary>A floor graph priced for one query: three integer costs on every arc, and which arcs may be used.</summary>
internal sealed class PricedGraph
{
    /// <summary>A threshold above this jolts enough to count. Source: the project's own figure.</summary>
    public const int JoltingThresholdMillimetres = 10;

    // Rows and lengths belong to the published plan, not to a query.
    private static readonly ConditionalWeakTable<FloorGraph, CostGraph> Lengths = [];

    private readonly Obstacle?[] _obstacles;
    private BitArray? _allowedThroughRooms;

    public PricedGraph(FloorGraph floor, RouteQuery query)
    {
        (Floor, Query) = (floor, query);
        Travel = TravelProfile.For(floor, query.Travel);
        Exposure = ExposureProfile.For(Travel, query.Precautions, query.Exposure);
        Length = Lengths.GetValue(floor, static graph => new(
            graph.VertexCount, 1, graph.ArcSource.AsSpan(), graph.ArcTarget.AsSpan(), graph.ArcLength.AsSpan()));
        Rooms = new(floor, query);
        _obstacles = new Obstacle?[floor.ArcCount];
        (Allowed, Relaxed) = (new(floor.ArcCount), new(floor.ArcCount));
        var costs = new int[3 * floor.ArcCount];
        for (var arc = 0; arc < floor.ArcCount; arc++)
        {
            var obstacle = _obstacles[arc] = Travel.ObstacleOf(arc) ?? (query.ThroughRooms ? null : Rooms.Of(arc));
            Allowed[arc] = obstacle is null;
            Relaxed[arc] = obstacle?.Kind != LimitKind.StairFlight;
            costs[3 * arc] = (int)Math.Round(Travel.TimeOf(arc).ExpectedSeconds * 10, MidpointRounding.AwayFromZero);
            costs[3 * arc + 1] = (int)Math.Min(CostGraph.MaxCost, Exposure.CostOf(arc));
            costs[3 * arc + 2] = HandlingOf(arc);
        }

        Costs = Length.WithCosts(3, costs);
    }

    public FloorGraph Floor { get; }
    public RouteQuery Query { get; }
    public TravelProfile Travel { get; }
    public RoomsOnTheWay Rooms { get; }
    public ExposureProfile Exposure { get; }

    /// <summary>Time in 0.1 s, exposure in 10⁻⁶ person-minutes (an arc above 1,073 counts as that), handling points.</summary>
    public CostGraph Costs { get; }

    /// <summary>Millimetres.</summary>
    public CostGraph Length { get; }

    /// <summary>Arcs without an obstacle.</summary>
    public BitArray Allowed { get; }

    /// <summary>Arcs without an obstacle, and those through rooms.</summary>
    public BitArray AllowedThroughRooms => _allowedThroughRooms ??= new([.. _obstacles.Select(obstacle => obstacle?.Kind is null or LimitKind.ThroughRoom)]);

    /// <summary>Every arc but stair flights: what the quickest way would be if every limit gave way.</summary>
    public BitArray Relaxed { get; }

    public Obstacle? ObstacleOn(int arc) => _obstacles[arc];

    public int TimeTenths(int arc) => Costs.Costs[3 * arc];

    /// <summary>Expected seconds of a way, as the sum of the costs that ranked it.</summary>
    public double Seconds(IEnumerable<int> arcs) => arcs.Sum(TimeTenths) / 10.0;

    /// <summary>Mean number of people in the places crossed, each place once, the rooms at both ends left out.</summary>
    public double PeopleLikelyMet(IEnumerable<int> arcs) =>
        arcs.DistinctBy(arc => Floor.ArcPlace[arc]).Sum(arc => Exposure.Of(arc).People);

    /// <summary>What the exposure cost of this query counts, in millionths.</summary>
    public string ExposureUnit => Exposure.Precautions == PrecautionSet.Contact ? "touch points" : "person-minutes of exposure";

    /// <summary>An instant by the clock on the wall of the site.</summary>
    public DateTimeOffset SiteTime(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, TimeZoneInfo.FindSystemTimeZoneById(Floor.Plan.TimeZone));

    public bool HasJoltingThreshold(int arc) =>
        Travel.PassageAtEnd(arc) is { } passage && Floor.Plan.Passages[passage].Threshold is { IsKnown: true } threshold
        && threshold.Value.Millimetres > JoltingThresholdMillimetres;

    private int HandlingOf(int arc)
    {
        var opened = Travel.PassageAtEnd(arc) is { } passage && Floor.Plan.Passages[passage].Kind is PassageKind.HingedDoor or PassageKind.DoubleDoor;
        return (Floor.ArcElevator[arc] >= 0 ? 1 : 0) + (opened ? 1 : 0) + (HasJoltingThreshold(arc) ? 1 : 0);
    }
}
