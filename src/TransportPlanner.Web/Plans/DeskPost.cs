using TransportPlanner.Web.Posts;

namespace TransportPlanner.Web.Plans;

/// <summary>One post in the list of all transports.</summary>
/// <param name="Mark">Number of the transport, a point, number of the post, as on the floor plans.</param>
/// <param name="CallSign">Of the transport.</param>
/// <param name="Officer">Number of the transport, a point, number of its officer: each plan counts its own. Null: nobody.</param>
/// <param name="Post">Where and when.</param>
/// <param name="SameDoor">Posts of other transports at the same door while this one stands.</param>
internal sealed record DeskPost(string Mark, string CallSign, string? Officer, PostResponse Post, IReadOnlyList<string> SameDoor)
{
    /// <summary>By time, or by officer and time with those that nobody mans first.</summary>
    public static IReadOnlyList<DeskPost> Of(IReadOnlyList<DeskTransport> transports, bool byOfficer)
    {
        var all = transports.Index().SelectMany(one => one.Item.PostsAtGo?.Posts.Select(post => (Number: one.Index + 1, one.Item, Post: post)) ?? []).ToList();
        var rows = all.Select(one => (one.Number, Order: OfficerOf(one.Item, one.Post)?.Number ?? 0, Row: new DeskPost(
            DeskModel.Mark(one.Number, one.Post.Id), one.Item.Plan.CallSign, OfficerOf(one.Item, one.Post) is { } officer ? $"{one.Number}.{officer.Number}" : null, one.Post,
            [
                .. from other in all
                   where other.Number != one.Number && other.Post.Passage == one.Post.Passage && other.Post.From < one.Post.To && one.Post.From < other.Post.To
                   select DeskModel.Mark(other.Number, other.Post.Id),
            ])));
        return [.. (byOfficer ? rows.OrderBy(row => row.Number).ThenBy(row => row.Order).ThenBy(row => row.Row.Post.From) : rows.OrderBy(row => row.Row.Post.From)).Select(row => row.Row)];
    }

    private static OfficerResponse? OfficerOf(DeskTransport transport, PostResponse post) =>
        transport.Posts!.Officers.FirstOrDefault(officer => officer.Duties.Any(duty => duty.Post == post.Id));
}
