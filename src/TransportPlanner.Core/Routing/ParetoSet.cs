using System.Collections.Immutable;

namespace TransportPlanner.Core.Routing;

/// <summary>One efficient way: its costs in the graph's order of criteria, and the numbers of its arcs from origin to target.</summary>
public sealed record ParetoMember(ImmutableArray<int> Costs, ImmutableArray<int> Arcs);

/// <summary>
/// The ways between two vertices that no other way matches or betters in every cost, one for each vector of costs, in lexicographic
/// order of the costs. Empty when no way leads there.
/// </summary>
/// <param name="Members">The ways.</param>
/// <param name="IsComplete">
/// False when the deadline passed: ways are missing, and some that are here may be bettered by one that is missing. Whoever shows the set
/// says so, and says <paramref name="Epsilon"/>.
/// </param>
/// <param name="Epsilon">
/// Every way that is missing has a member at most (1 + ε) times as costly in each cost. 0: the set is exact. +∞: nothing is promised,
/// because the deadline passed before the search began, or because of a least cost of 0 that no member reaches.
/// </param>
/// <param name="Expanded">Labels whose arcs were followed.</param>
/// <param name="Generated">Labels that entered the queue.</param>
public sealed record ParetoSet(ImmutableArray<ParetoMember> Members, bool IsComplete, double Epsilon, long Expanded, long Generated);
