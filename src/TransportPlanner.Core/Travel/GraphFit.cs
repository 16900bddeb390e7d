using System.Runtime.CompilerServices;
using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Core.Travel;

/// <summary>
/// What the checks of one conveyance find on one published graph at any hour: every limit but closures. Requests share it, since checks
/// and their sentences take longer than the search. Immutable.
/// </summary>
internal sealed class GraphFit
{
    /// <summary>Conveyances and settings kept for one graph; a site has a handful.</summary>
    private const int MostKept = 32;

    private static readonly ConditionalWeakTable<FloorGraph, Dictionary<FitKey, GraphFit>> Kept = [];

    private readonly Dictionary<(int, int), double?> _longestBoxes = [];

    /// <summary>Everything in a query that a limit other than a closure depends on, by value.</summary>
    private readonly record struct FitKey(
        long Length, long Width, long Height, double Mass, int Crew, long Clearance, double CrewArea, double CrewMass, long MaxThreshold,
        double MaxGradient, int CannotOpen, bool AvoidUnknown, bool CarriesCylinders);

    private GraphFit(FloorGraph graph, FitLimits limits)
    {
        Passages = [.. graph.Plan.Passages.Select(limits.Of)];
        Places = [.. graph.Plan.Places.Select(limits.Of)];
        Elevators = [.. graph.Plan.Elevators.Select(limits.Of)];
        foreach (var turn in graph.ArcTurns.SelectMany(turns => turns))
        {
            if (!_longestBoxes.ContainsKey(Widths(turn)))
            {
                _longestBoxes[Widths(turn)] = limits.LongestBox(turn);
            }
        }

        Corners = new Obstacle?[graph.ArcCount];
        for (var arc = 0; arc < graph.ArcCount; arc++)
        {
            foreach (var turn in graph.ArcTurns[arc])
            {
                Corners[arc] ??= limits.Corner(graph.Plan.Places[graph.ArcPlace[arc]].Number, turn, _longestBoxes[Widths(turn)]);
            }
        }
    }

    /// <summary>In the order of the plan.</summary>
    public LimitFindings[] Passages { get; }

    public LimitFindings[] Places { get; }

    public LimitFindings[] Elevators { get; }

    /// <summary>The first turn of each arc that is too tight.</summary>
    public Obstacle?[] Corners { get; }

    /// <summary>Longest box that takes a turn; null where its widths are unknown.</summary>
    public double? LongestBox(Turn turn) => _longestBoxes[Widths(turn)];

    /// <summary>The findings for a query, made at its first like. Safe to call from several threads.</summary>
    public static GraphFit For(FloorGraph graph, TravelQuery query, FitLimits limits)
    {
        var (conveyance, settings) = (query.Conveyance, query.Settings);
        var key = new FitKey(
            conveyance.Length.Millimetres, conveyance.Width.Millimetres, conveyance.Height.Millimetres, conveyance.MassKilograms,
            conveyance.Crew, settings.ClearanceEachSide.Millimetres, settings.CrewAreaSquareMetres, settings.CrewMassKilograms,
            settings.MaxThreshold.Millimetres,
            settings.MaxGradientPercent, settings.CannotOpen.Aggregate(0, (set, access) => set | (1 << (int)access)), query.AvoidUnknown,
            query.CarriesCylinders);
        var kept = Kept.GetOrCreateValue(graph);
        lock (kept)
        {
            if (kept.TryGetValue(key, out var fit))
            {
                return fit;
            }
        }

        var made = new GraphFit(graph, limits);
        lock (kept)
        {
            if (kept.Count >= MostKept)
            {
                kept.Clear();
            }

            kept[key] = made;
        }

        return made;
    }

    private static (int, int) Widths(Turn turn) => (turn.WidthBeforeMillimetres, turn.WidthAfterMillimetres);
}
