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
/// False when the deadline passed: every member is still efficient, but others, all at least as costly in the first criterion as the last
/// member, are missing. Whoever shows the set says so.
/// </param>
/// <param name="Expanded">Labels whose arcs were followed.</param>
/// <param name="Generated">Labels that entered the queue.</param>
public sealed record ParetoSet(ImmutableArray<ParetoMember> Members, bool IsComplete, long Expanded, long Generated);
