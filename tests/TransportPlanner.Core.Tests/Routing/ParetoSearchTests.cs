using System.Collections;
using System.Globalization;
using CsCheck;
using QuikGraph;
using QuikGraph.Algorithms;
using TransportPlanner.Core.Routing;

namespace TransportPlanner.Core.Tests.Routing;

public sealed class ParetoSearchTests
{
    /// <summary>Where the stream of random graphs starts, so that every run tries the same ones.</summary>
    private const string Start = "0N0XIzNsQ0O2";

    /// <summary>Published and proved sets. An edge is written <c>from-to(costs)</c> both ways or <c>from&gt;to(costs)</c> one way, vertices from 0.</summary>
    [Theory]
    // Example data of the EMOA* code by Ren et al. (2022), proved by enumeration.
    [InlineData("1-2(1,2,1) 1-3(1,2,5) 2-3(3,1,2) 3-4(2,1,2) 3-5(1,2,5) 4-5(1,3,1) 1-5(1,14,16)", 1, 5, "1,14,16 2,4,10 4,6,8 5,5,8 7,7,6")]
    // Unit test of JGraphT's Martin algorithm.
    [InlineData("1>2(1,5) 1>3(4,2) 1>4(4,4) 2>4(1,2) 2>5(2,5) 3>4(2,3) 3>5(6,1) 4>5(3,3)", 1, 5, "3,10 7,7 10,3")]
    [InlineData("1>2(1,5) 1>3(4,2) 1>4(4,4) 2>4(1,2) 2>5(2,5) 3>4(2,3) 3>5(6,1) 4>5(3,3)", 1, 4, "2,7 4,4")]
    // Example after Paixão and Santos 2013.
    [InlineData("0-1(62,50) 0-2(44,90) 0-3(67,10) 1-2(33,25) 1-4(52,90) 2-3(32,10) 2-4(52,40) 3-4(54,100)", 0, 4, "96,130 121,110 151,60")]
    // Shortest of the k shortest paths in QuickGraph issue 178: A = 0, B = 1, C = 2, D = 3.
    [InlineData("0-1(5) 0-2(6) 1-2(7) 1-3(8) 2-3(9)", 0, 3, "13")]
    public void Published_sets_are_found(string edges, int origin, int target, string expected)
    {
        var set = ParetoSearch.Find(Parse(edges), origin, target);

        Assert.Equal(expected, Text(set));
        Assert.True(set.IsComplete);
    }

    /// <summary>QuickGraph issue 178 lists the three shortest ways 13 ABD, 15 ACD, 21 ABCD: with "not the passage BD" and "nor AC" as arcs left out, each is found in turn.</summary>
    [Fact]
    public void Leaving_out_arcs_finds_the_next_shortest_ways()
    {
        var graph = Parse("0-1(5) 0-2(6) 1-2(7) 1-3(8) 2-3(9)");
        var allowed = new BitArray(graph.ArcCount, true);

        Assert.Equal("13", Text(ParetoSearch.Find(graph, 0, 3, allowed)));
        allowed[6] = false;
        Assert.Equal("15", Text(ParetoSearch.Find(graph, 0, 3, allowed)));
        allowed[2] = false;
        Assert.Equal("21", Text(ParetoSearch.Find(graph, 0, 3, allowed)));
    }

    /// <summary>Source: Hansen's chain (1980), construction from memory, answer proved: all 2^k ways are efficient.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(10)]
    public void An_exponential_chain_keeps_every_way(int stages)
    {
        var edges = Enumerable.Range(0, stages).Select(i =>
            $"{2 * i}>{2 * i + 2}({1 << i},0) {2 * i}>{2 * i + 1}(0,{1 << i}) {2 * i + 1}>{2 * i + 2}(0,0)");

        var set = ParetoSearch.Find(Parse(string.Join(' ', edges)), 0, 2 * stages);

        var last = (1 << stages) - 1;
        Assert.Equal(string.Join(' ', Enumerable.Range(0, last + 1).Select(x => $"{x},{last - x}")), Text(set));
    }

    /// <summary>
    /// Counts of published research codes and of two general libraries (Boost r_c_shortest_paths, JGraphT) on the same instances. The larger
    /// ones run in the benchmark program.
    /// </summary>
    [Theory]
    [InlineData(10, 2, 21)]
    [InlineData(30, 2, 107)]
    [InlineData(10, 3, 62)]
    [InlineData(20, 3, 925)]
    [InlineData(30, 3, 2798)]
    public void Generated_grids_have_the_known_number_of_efficient_ways(int side, int criteria, int expected)
    {
        var (graph, origin, target) = GeneratedInstance.Grid(side, side, criteria, start: 1);

        Assert.Equal(expected, ParetoSearch.Find(graph, origin, target).Members.Length);
    }

    /// <summary>The 21 vectors were also found by a constraint solver (Google OR-Tools CP-SAT, ε-constraint).</summary>
    [Fact]
    public void The_small_grid_has_the_vectors_that_a_constraint_solver_found()
    {
        var (graph, origin, target) = GeneratedInstance.Grid(10, 10, 2, start: 1);

        Assert.Equal(
            "592,874 601,861 618,860 627,796 642,793 659,792 660,790 661,757 667,740 668,728 677,725 694,724 698,631 731,625 732,592 " +
            "805,590 825,584 826,568 835,555 871,549 974,531",
            Text(ParetoSearch.Find(graph, origin, target)));
    }

    [Fact]
    public void A_generated_floor_has_the_known_vectors()
    {
        var (graph, origin, target) = GeneratedInstance.Hospital(14, 14, floors: 1, start: 1);

        Assert.Equal("1031,0,4 1033,0,3 1045,162,2 1082,0,2", Text(ParetoSearch.Find(graph, origin, target)));
    }

    /// <summary>Count agreed by Boost r_c_shortest_paths, JGraphT and a published research code.</summary>
    [Fact]
    public void A_generated_hospital_of_15_000_vertices_has_the_known_number_of_efficient_ways()
    {
        var (graph, origin, target) = GeneratedInstance.Hospital(50, 50, floors: 4, start: 1);

        Assert.Equal(15_000, graph.VertexCount);
        Assert.Equal(261, ParetoSearch.Find(graph, origin, target).Members.Length);
    }

    [Fact]
    public void Random_graphs_give_what_plain_enumeration_gives() =>
        Instances.Sample(
            (graph, origin, target, allowed) =>
            {
                var set = ParetoSearch.Find(graph, origin, target, allowed);

                var expected = PlainEnumeration.EfficientVectors(graph, origin, target, allowed);
                return Text(set) == string.Join(' ', expected.Select(v => string.Join(',', v)));
            },
            null, Start, 20_000);

    [Fact]
    public void Taking_out_vertices_that_decide_nothing_changes_no_vector() =>
        Instances.Sample(
            (graph, origin, target, allowed) =>
                Text(ParetoSearch.Find(graph, origin, target, allowed))
                == Text(ParetoSearch.Find(graph, origin, target, allowed, contracted: false, default, default)),
            null, Start, 2_000);

    [Fact]
    public void A_generated_floor_gives_the_same_between_any_two_rooms_with_and_without_contraction()
    {
        var (graph, origin, _) = GeneratedInstance.Hospital(14, 14, floors: 2, start: 5);
        var allowed = new BitArray(graph.ArcCount, true);
        for (var arc = 0; arc < graph.ArcCount; arc += 17)
        {
            allowed[arc] = false;
        }

        Assert.True(graph.Contraction.VertexCount < 0.6 * graph.VertexCount);
        for (var target = 0; target < graph.VertexCount; target += 13)
        {
            var plain = ParetoSearch.Find(graph, origin, target, allowed, contracted: false, default, default);
            Assert.Equal(Text(plain), Text(ParetoSearch.Find(graph, origin, target, allowed)));
        }
    }

    /// <summary>The queue holds a window of first costs and deals out what lies beyond: larger units must not change the set.</summary>
    [Theory]
    [InlineData(20, 3, 925, 9_000, 1, 1)]
    [InlineData(20, 3, 925, 1, 1, 9_000)]
    [InlineData(30, 2, 107, 40_000, 300, 1)]
    public void Costs_in_a_finer_unit_give_the_same_set(int side, int criteria, int expected, int first, int second, int third)
    {
        var (graph, origin, target) = GeneratedInstance.Grid(side, side, criteria, start: 1);
        int[] factors = [first, second, third];
        var fine = graph.WithCosts(criteria, graph.Costs.ToArray().Select((cost, i) => cost * factors[i % criteria]).ToArray());

        var coarse = ParetoSearch.Find(graph, origin, target).Members;

        Assert.Equal(expected, coarse.Length);
        Assert.Equal(
            coarse.Select(m => string.Join(',', m.Costs.Select((cost, k) => cost * factors[k]))),
            ParetoSearch.Find(fine, origin, target).Members.Select(m => string.Join(',', m.Costs)));
    }

    /// <summary>A graph large enough for its bounds to be made on several cores.</summary>
    [Fact]
    public void A_refusal_or_a_cancellation_on_another_core_arrives_as_itself()
    {
        var vertices = 3 * 4_096;
        var tails = Enumerable.Range(0, vertices - 1).SelectMany(v => new[] { v, v, (v + 1) }).ToArray();
        var heads = Enumerable.Range(0, vertices - 1).SelectMany(v => new[] { v + 1, Math.Min(v + 2, vertices - 1), v }).ToArray();
        var graph = new CostGraph(vertices, 2, tails, heads, Enumerable.Repeat(CostGraph.MaxCost / 4, 2 * tails.Length).ToArray());

        Assert.Throws<OverflowException>(() => ParetoSearch.Find(graph, 0, vertices - 1));
        Assert.ThrowsAny<OperationCanceledException>(
            () => ParetoSearch.Find(graph, 0, vertices - 1, cancellation: new(canceled: true)));
    }

    /// <summary>A shortcut whose costs leave the range must not refuse a query that never needs it.</summary>
    [Fact]
    public void A_chain_too_dear_for_an_integer_is_searched_as_it_is()
    {
        var graph = Parse($"0>1(1) 1>3(1) 4>5({CostGraph.MaxCost}) 5>6({CostGraph.MaxCost}) 7>4(1) 8>4(1) 6>7(1) 6>8(1)");

        Assert.Equal("2", Text(ParetoSearch.Find(graph, 0, 3)));
    }

    [Fact]
    public void The_arcs_of_a_way_lead_from_origin_to_target_and_add_up_to_its_costs() =>
        Instances.Sample(
            (graph, origin, target, allowed) =>
            {
                foreach (var member in ParetoSearch.Find(graph, origin, target, allowed).Members)
                {
                    var (at, costs) = (origin, new int[graph.CriterionCount]);
                    foreach (var arc in member.Arcs)
                    {
                        Assert.Equal(at, graph.Source[arc]);
                        Assert.True(allowed[arc]);
                        at = graph.Target[arc];
                        for (var k = 0; k < costs.Length; k++)
                        {
                            costs[k] += graph.Costs[arc * costs.Length + k];
                        }
                    }

                    Assert.Equal(target, at);
                    Assert.Equal(member.Costs, costs);
                }
            },
            null, Start, 2_000);

    [Fact]
    public void No_member_is_matched_or_bettered_by_another()
    {
        var (graph, origin, target) = GeneratedInstance.Grid(15, 15, 4, start: 3);

        var members = ParetoSearch.Find(graph, origin, target).Members.Select(m => m.Costs.ToArray()).ToList();

        Assert.True(members.Count > 100);
        Assert.DoesNotContain(members, m => members.Any(other => other != m && other.Zip(m).All(p => p.First <= p.Second)));
    }

    [Fact]
    public void Leaving_out_an_arc_never_cheapens_any_single_cost() =>
        Instances.Sample(
            (graph, origin, target, allowed) =>
            {
                var before = ParetoSearch.Find(graph, origin, target).Members;
                var after = ParetoSearch.Find(graph, origin, target, allowed).Members;
                return after.IsEmpty || Enumerable.Range(0, graph.CriterionCount)
                    .All(k => before.Min(m => m.Costs[k]) <= after.Min(m => m.Costs[k]));
            },
            null, Start, 2_000);

    [Fact]
    public void The_first_member_is_the_shortest_path_of_a_general_library() =>
        Instances.Sample(
            (graph, origin, target, _) =>
            {
                var quik = new AdjacencyGraph<int, TaggedEdge<int, int>>();
                quik.AddVertexRange(Enumerable.Range(0, graph.VertexCount));
                for (var arc = 0; arc < graph.ArcCount; arc++)
                {
                    quik.AddEdge(new(graph.Source[arc], graph.Target[arc], graph.Costs[arc * graph.CriterionCount]));
                }

                var found = quik.ShortestPathsDijkstra(edge => edge.Tag, origin)(target, out IEnumerable<TaggedEdge<int, int>> path);
                var members = ParetoSearch.Find(graph, origin, target).Members;
                return origin == target
                    ? members[0].Costs[0] == 0
                    : found == !members.IsEmpty && (!found || members[0].Costs[0] == path.Sum(edge => edge.Tag));
            },
            null, Start, 2_000);

    [Fact]
    public void A_way_from_a_vertex_to_itself_is_empty()
    {
        var member = Assert.Single(ParetoSearch.Find(Parse("0-1(1,1)"), 1, 1).Members);

        Assert.Equal([0, 0], member.Costs);
        Assert.Empty(member.Arcs);
    }

    [Fact]
    public void An_unreachable_target_gives_the_empty_set_which_is_complete()
    {
        var set = ParetoSearch.Find(Parse("0>1(1,1) 2>1(1,1)"), 0, 2);

        Assert.Empty(set.Members);
        Assert.True(set.IsComplete);
    }

    [Fact]
    public void A_cancelled_search_throws() =>
        Assert.ThrowsAny<OperationCanceledException>(() => ParetoSearch.Find(Parse("0-1(1)"), 0, 1, cancellation: new(canceled: true)));

    /// <summary>The deadline has passed before the first label: all that answers is the merged label of the origin, completed.</summary>
    [Fact]
    public void What_a_search_past_its_deadline_lacks_lies_within_its_epsilon() =>
        Instances.Sample(
            (graph, origin, target, allowed) =>
            {
                var exact = ParetoSearch.Find(graph, origin, target, allowed).Members;
                var cut = ParetoSearch.Find(graph, origin, target, allowed, deadline: new(canceled: true));
                Assert.Equal(exact.IsEmpty, cut.Members.IsEmpty);
                AssertCovers(cut, exact.Select(m => m.Costs.ToArray()), graph);
            },
            null, Start, 2_000);

    [Theory]
    [InlineData(5)]
    [InlineData(40)]
    public async Task What_a_search_cut_short_lacks_lies_within_its_epsilon(int milliseconds)
    {
        var (graph, origin, target) = GeneratedInstance.Grid(25, 25, 3, start: 1);
        var exact = ParetoSearch.Find(graph, origin, target).Members.Select(m => m.Costs.ToArray());
        using var deadline = new CancellationTokenSource(TimeSpan.FromMilliseconds(milliseconds));

        var cut = await Task.Run(() => ParetoSearch.Find(graph, origin, target, deadline: deadline.Token));

        Assert.False(cut.Members.IsEmpty);
        Assert.True(cut.IsComplete || cut.Epsilon is > 0 and < 1, $"ε {cut.Epsilon}");
        AssertCovers(cut, exact, graph);
    }

    private static void AssertCovers(ParetoSet cut, IEnumerable<int[]> exact, CostGraph graph)
    {
        foreach (var vector in exact)
        {
            Assert.True(
                double.IsPositiveInfinity(cut.Epsilon)
                || cut.Members.Any(m => m.Costs.Zip(vector).All(pair => pair.First <= (1 + cut.Epsilon) * pair.Second + 1e-6)),
                $"{string.Join(',', vector)} is not within {cut.Epsilon} of {Text(cut)}");
        }

        foreach (var member in cut.Members)
        {
            Assert.Equal(member.Costs, Enumerable.Range(0, member.Costs.Length).Select(
                k => member.Arcs.Sum(arc => graph.Costs[arc * member.Costs.Length + k])));
        }
    }

    [Fact]
    public void Costs_that_would_leave_the_range_of_an_integer_are_refused_not_wrapped()
    {
        var graph = Parse($"0>1({CostGraph.MaxCost}) 1>2({CostGraph.MaxCost}) 2>3(2)");

        var error = Assert.Throws<OverflowException>(() => ParetoSearch.Find(graph, 0, 3));

        Assert.Contains("larger unit", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bitset_of_the_wrong_length_is_refused() =>
        Assert.Throws<ArgumentException>(() => ParetoSearch.Find(Parse("0-1(1)"), 0, 1, new BitArray(3)));

    /// <summary>Up to nine vertices and 24 arcs, one to four small costs: ties, zeros, parallel arcs, loops, arcs not allowed, equal and unreachable ends.</summary>
    private static readonly Gen<(CostGraph Graph, int Origin, int Target, BitArray Allowed)> Instances =
        from vertices in Gen.Int[1, 9]
        from criteria in Gen.Int[1, 4]
        from arcs in Gen.Int[0, 24]
        from largest in Gen.Int[0, 12]
        from source in Gen.Int[0, vertices - 1].Array[arcs]
        from target in Gen.Int[0, vertices - 1].Array[arcs]
        from costs in Gen.Int[0, largest].Array[arcs * criteria]
        from left in Gen.Int[0, 9].Array[arcs]
        from origin in Gen.Int[0, vertices - 1]
        from destination in Gen.Int[0, vertices - 1]
        select (new CostGraph(vertices, criteria, source, target, costs), origin, destination, new BitArray(left.Select(l => l > 0).ToArray()));

    private static string Text(ParetoSet set) => string.Join(' ', set.Members.Select(m => string.Join(',', m.Costs)));

    private static CostGraph Parse(string edges)
    {
        var (source, target, costs, criteria) = (new List<int>(), new List<int>(), new List<int>(), 0);
        foreach (var edge in edges.Split(' '))
        {
            var parts = edge.Split(['-', '>', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
            var values = parts[2].Split(',').Select(c => int.Parse(c, CultureInfo.InvariantCulture)).ToArray();
            var (from, to) = (int.Parse(parts[0], CultureInfo.InvariantCulture), int.Parse(parts[1], CultureInfo.InvariantCulture));
            criteria = values.Length;
            source.Add(from);
            target.Add(to);
            costs.AddRange(values);
            if (edge.Contains('-', StringComparison.Ordinal))
            {
                source.Add(to);
                target.Add(from);
                costs.AddRange(values);
            }
        }

        return new(source.Concat(target).Max() + 1, criteria, source.ToArray(), target.ToArray(), costs.ToArray());
    }
}
