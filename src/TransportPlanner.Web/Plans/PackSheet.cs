namespace TransportPlanner.Web.Plans;

/// <summary>The sheets of the pack, in the order in which they are handed out: each is complete by itself.</summary>
public enum PackSheet
{
    Huddle,

    /// <summary>Whom to call and what to say, with room for who answered when.</summary>
    Calls,
    Strip,
    Gas,

    /// <summary>A card for each officer.</summary>
    Posts,

    /// <summary>The front for the door, readable from 2 m, and what is to be ready behind it.</summary>
    Receiving,
    Helper,
    Stuck,
    CloseOut,
    Labels,
}
