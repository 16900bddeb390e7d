using TransportPlanner.Core.Posts;

namespace TransportPlanner.Benchmarks;

/// <summary>
/// The fewest officers for 60 posts, and the best use of 20, on invented posts in a square of 150 m: windows of half a minute to five minutes within
/// half an hour, one metre a second. Walking times are given, as they are after the first plan; nothing is read or written.
/// </summary>
internal static class PostsBenchmark
{
    private const int Posts = 60;
    private const int Officers = 20;
    private const int Instances = 50;

    public static void Run(int seed)
    {
        Figures.PrintMachine();
        var random = new Random(seed);
        List<double> fewest = [], best = [], starts = [];
        var (officers, open) = (0, 0);
        for (var i = -Instances / 5; i < Instances; i++)
        {
            var posts = Enumerable.Range(0, Posts)
                .Select(_ => (From: random.Next(1800), Length: random.Next(30, 300), X: random.Next(150), Y: random.Next(150), Weight: (long)random.Next(1, 5_000_000)))
                .OrderBy(post => post.From).ToArray();
            int Walk(int a, int b)
            {
                var metres = Math.Abs(posts[a].X - posts[b].X) + Math.Abs(posts[a].Y - posts[b].Y);
                return a != b && posts[a].From + posts[a].Length + metres <= posts[b].From ? metres : -1;
            }

            long[] weights = [.. posts.Select(post => post.Weight)];
            var (number, left) = (0, 0);
            var first = Figures.Milliseconds(() => number = PathCover.Fewest(Posts, (a, b) => Walk(a, b) >= 0));
            var second = Figures.Milliseconds(() => left = Posts - BestCover.Find(weights, Walk, Officers, null).Chains.Sum(chain => chain.Length));
            // Every officer starts in the corner and is called when the first post begins.
            var third = Figures.Milliseconds(() => BestCover.Find(
                weights, Walk, Officers, (_, post) => posts[post].X + posts[post].Y is var metres && metres <= posts[post].From ? metres : -1));
            // The first fifth warms up and is not counted.
            if (i < 0)
            {
                continue;
            }

            fewest.Add(first);
            best.Add(second);
            starts.Add(third);
            officers += number;
            open += left;
        }

        Figures.Print($"{Instances} sets of {Posts} posts, seed {seed}; the fewest officers are {officers / (double)Instances:0.0} in the mean, {Officers} leave {open / (double)Instances:0.0} posts open");
        Figures.Print($"the fewest officers, by matching:                {Figures.Spread(fewest)}");
        Figures.Print($"the best use of {Officers}, by minimum-cost flow:        {Figures.Spread(best)}");
        Figures.Print($"the best use of {Officers} with starting places:         {Figures.Spread(starts)}");
        Figures.PrintMachine();
    }
}
