using CsCheck;
using TransportPlanner.Core.Posts;

namespace TransportPlanner.Core.Tests.Posts;

public sealed class PathCoverTests
{
    // Seen to fail: with the matching of QuikGraph 2.5.0, some of whose edges were no matching.
    [Fact]
    public void The_fewest_chains_are_those_of_plain_enumeration() =>
        CoverInstance.Of(8).Sample(
            instance => PathCover.Fewest(instance.Count, instance.Follows) == FewestByEnumeration(instance), iter: 2_000, seed: "0000KzXyq6c3");

    [Fact]
    public void A_longer_window_never_needs_fewer_officers() =>
        Gen.Select(CoverInstance.Of(30), Gen.Int[0, 29], Gen.Int[0, 80], Gen.Int[0, 80]).Sample(
            (instance, i, before, after) => instance.Count == 0
                || PathCover.Fewest(instance.Count, instance.Longer(i % instance.Count, before, after).Follows)
                    >= PathCover.Fewest(instance.Count, instance.Follows),
            iter: 500, seed: "0000KzXyq6c4");

    [Fact]
    public void Posts_all_at_once_need_one_officer_each_and_posts_in_a_row_need_one()
    {
        var at = new CoverInstance([.. Enumerable.Range(0, 9).Select(i => (0, 60, i, 0, 1L))]);
        var row = new CoverInstance([.. Enumerable.Range(0, 9).Select(i => (i * 20, i * 20 + 10, i, 0, 1L))]);

        Assert.Equal(9, PathCover.Fewest(at.Count, at.Follows));
        Assert.Equal(1, PathCover.Fewest(row.Count, row.Follows));
        Assert.Equal(0, PathCover.Fewest(0, (_, _) => true));
    }

    /// <summary>Each post in turn goes to the end of a chain that it may follow, or begins a chain.</summary>
    private static int FewestByEnumeration(CoverInstance instance)
    {
        int Try(int post, List<int> ends)
        {
            if (post == instance.Count)
            {
                return ends.Count;
            }

            var best = Try(post + 1, [.. ends, post]);
            for (var chain = 0; chain < ends.Count; chain++)
            {
                if (instance.Follows(ends[chain], post))
                {
                    best = Math.Min(best, Try(post + 1, [.. ends.Select((end, i) => i == chain ? post : end)]));
                }
            }

            return best;
        }

        return Try(0, []);
    }
}
