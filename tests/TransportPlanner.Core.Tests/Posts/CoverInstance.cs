using CsCheck;

namespace TransportPlanner.Core.Tests.Posts;

/// <summary>Posts in a plane: windows in seconds, positions in metres, one metre a second. Sorted by beginning.</summary>
internal sealed record CoverInstance((int From, int To, int X, int Y, long Weight)[] Posts)
{
    internal int Count => Posts.Length;
    internal long[] Weights => [.. Posts.Select(post => post.Weight)];

    internal static Gen<CoverInstance> Of(int most, int span = 300) =>
        Gen.Select(Gen.Int[0, span], Gen.Int[1, 60], Gen.Int[0, 40], Gen.Int[0, 40], Gen.Long[0, 30])
            .Select((begin, length, x, y, weight) => (begin, begin + length, x, y, weight))
            .Array[0, most].Select(posts => new CoverInstance([.. posts.Order()]));

    /// <summary>Seconds, −1 where there is no time.</summary>
    internal int Walk(int i, int j) => i != j && Metres(i, j) is var metres && Posts[i].To + metres <= Posts[j].From ? metres : -1;

    internal bool Follows(int i, int j) => Walk(i, j) >= 0;

    internal CoverInstance Longer(int i, int before, int after) => new(
        [.. Posts.Select((post, k) => k == i ? post with { From = post.From - before, To = post.To + after } : post).Order()]);

    private int Metres(int i, int j) => Math.Abs(Posts[i].X - Posts[j].X) + Math.Abs(Posts[i].Y - Posts[j].Y);
}
