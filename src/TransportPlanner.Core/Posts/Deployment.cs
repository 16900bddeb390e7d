using System.Collections.Immutable;

namespace TransportPlanner.Core.Posts;

/// <summary>One turn of an officer.</summary>
/// <param name="Post">Where, from when to when, what to say.</param>
/// <param name="WalkSeconds">The walk to it, rounded up: from the post before, or from the starting place; 0 for a first post without one.</param>
public sealed record Duty(Post Post, int WalkSeconds);

/// <summary>One officer's list. It reads alone.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Start">Number of the place where the officer is called; null where nobody said.</param>
/// <param name="Duties">In order of time; empty where there is nothing left to do, or nothing is reached in time.</param>
public sealed record Officer(int Number, string? Start, ImmutableArray<Duty> Duties);

/// <summary>How many officers there are, and where.</summary>
public sealed record OfficersGiven
{
    public const int MaxCount = 60;

    /// <summary>0 to <see cref="MaxCount"/>.</summary>
    public required int Count { get; init; }

    /// <summary>Places where they are when called, at most <see cref="Count"/>; empty: each is at the first post in time.</summary>
    public ImmutableArray<string> Starts { get; init; } = [];

    /// <summary>When they are called and begin to walk, UTC. Only with <see cref="Starts"/>.</summary>
    public DateTimeOffset Called { get; init; }
}

/// <summary>Who stands where: the fewest officers that man every post, or the best use of those there are.</summary>
public sealed record Deployment
{
    /// <summary>The fewest officers that man every post, each at the first post in time. Exact.</summary>
    public required int Fewest { get; init; }

    /// <summary>As many as were given, else <see cref="Fewest"/>.</summary>
    public required ImmutableArray<Officer> Officers { get; init; }

    /// <summary>Posts that nobody mans, in order of time.</summary>
    public required ImmutableArray<Post> Unmanned { get; init; }

    /// <summary>
    /// People expected through what the best use of 0, 1, 2 … officers leaves unmanned, up to as many as have something to do; empty with starts.
    /// </summary>
    public required ImmutableArray<double> PeopleLikelyMetByOfficers { get; init; }

    /// <summary>People expected to come through the unmanned posts. A mean, not a prediction; 0 where every post is manned.</summary>
    public double PeopleLikelyMet => Unmanned.Sum(post => post.PeopleLikelyMet);

    /// <summary>Exact and deterministic.</summary>
    /// <param name="posts">Posts of one transport, or of several by <see cref="Post.Together"/>.</param>
    /// <param name="walks">Walking times; every post's passage is on its floor plan.</param>
    /// <param name="settings">The margin.</param>
    /// <param name="given">How many there are; null: as many as it takes.</param>
    /// <remarks>
    /// One officer takes j after i when i's end + walk + margin ≤ j's beginning. The number is a minimum path cover. The lists are a minimum-cost
    /// flow: captured elevators first, since every time counts on them; then people likely met, to a millionth; then the most posts; then the
    /// least walking.
    /// </remarks>
    /// <exception cref="ArgumentException">More than <see cref="OfficersGiven.MaxCount"/> officers, or more starts than officers.</exception>
    public static Deployment Of(IEnumerable<Post> posts, FootWalks walks, PostSettings settings, OfficersGiven? given = null)
    {
        ArgumentNullException.ThrowIfNull(posts);
        ArgumentNullException.ThrowIfNull(walks);
        ArgumentNullException.ThrowIfNull(settings);
        if (given is not null && (given.Count is < 0 or > OfficersGiven.MaxCount || given.Starts.Length > given.Count))
        {
            throw new ArgumentException($"Give 0 to {OfficersGiven.MaxCount} officers and no more starts than officers.", nameof(given));
        }

        var order = posts.OrderBy(post => post.Window.From).ThenBy(post => post.Window.To).ToArray();
        var walk = new int[order.Length, order.Length];
        for (var i = 0; i < order.Length; i++)
        {
            for (var j = 0; j < order.Length; j++)
            {
                walk[i, j] = InTime(order[i].Window.To, order[j], i == j ? null : walks.SecondsBetween(order[i].Passage, order[j].Passage), settings);
            }
        }

        var fewest = PathCover.Fewest(order.Length, (i, j) => walk[i, j] >= 0);
        var starts = given?.Starts ?? [];
        int Start(int officer, int post) => officer >= starts.Length ? 0
            : InTime(given!.Called, order[post], walks.SecondsFrom(starts[officer], order[post].Passage), settings);
        var best = BestCover.Find(
            [.. order.Select(WeightOf)], (i, j) => walk[i, j], given?.Count ?? fewest, starts.IsEmpty ? null : Start);
        var chains = best.Chains;
        return new()
        {
            Fewest = fewest,
            Officers =
            [
                .. chains.Select((chain, officer) => (
                        Start: officer < starts.Length ? starts[officer] : null,
                        Duties: chain.Select((post, k) => new Duty(
                            order[post], k > 0 ? walk[chain[k - 1], post] : starts.IsEmpty ? 0 : Start(officer, post))).ToImmutableArray()))
                    .OrderBy(list => list.Start is null && list.Duties.IsEmpty)
                    .ThenBy(list => starts.IsEmpty && !list.Duties.IsEmpty ? list.Duties[0].Post.Window.From : DateTimeOffset.MinValue)
                    .Select((list, i) => new Officer(i + 1, list.Start, list.Duties))
            ],
            PeopleLikelyMetByOfficers = starts.IsEmpty ? [.. best.Open.Select(open => open.Sum(i => order[i].PeopleLikelyMet))] : [],
            Unmanned = [.. order.Where((_, i) => !chains.Any(chain => chain.Contains(i)))],
        };
    }

    /// <summary>The walk where it ends in time, else −1.</summary>
    private static int InTime(DateTimeOffset free, Post next, int? walk, PostSettings settings) =>
        walk is { } seconds && free.AddSeconds(seconds + settings.MarginSeconds) <= next.Window.From ? seconds : -1;

    private static long WeightOf(Post post) =>
        (post.Kind == PostKind.Elevator ? 1L << 42 : 0) + Math.Min((1L << 34) - 1, (long)Math.Round(post.PeopleLikelyMet * 1e6, MidpointRounding.AwayFromZero));
}
