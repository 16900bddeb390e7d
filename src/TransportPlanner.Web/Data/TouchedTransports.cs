using TransportPlanner.Core.FloorPlans;

namespace TransportPlanner.Web.Data;

/// <summary>A planned transport that something out of use lies in the way of.</summary>
/// <param name="PlanId">Random id that names it.</param>
/// <param name="CallSign">Two words, for radio and paper.</param>
/// <param name="PlanVersion">The newest version, which this is about.</param>
/// <param name="DepartAt">When it leaves, UTC.</param>
/// <param name="Ways">Those of its ways that it lies on, in their order; a team may walk any of the ways shown.</param>
public sealed record TouchedTransport(string PlanId, string CallSign, int PlanVersion, DateTimeOffset DepartAt, IReadOnlyList<TouchedWay> Ways);

/// <summary>One way of a plan.</summary>
/// <param name="Way">Its letter.</param>
/// <param name="Leg">Position of the leg on which it lies, from 1.</param>
/// <param name="LegBegins">When that leg is expected to begin, UTC.</param>
public sealed record TouchedWay(string Way, int Leg, DateTimeOffset LegBegins);

/// <summary>
/// Which planned transports that are not void a closure touches: it lies on one of their ways and overlaps the hour from departure, in which the
/// router would not have led through it. A delegate, because whoever closes a place need not know how plans are kept.
/// </summary>
internal delegate Task<IReadOnlyList<TouchedTransport>> TouchedTransports(
    PlannerContext context, FloorPlan floorPlan, Closure closure, DateTimeOffset now, CancellationToken cancellationToken);
