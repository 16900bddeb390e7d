using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using TransportPlanner.Core.Tests.Architecture;

namespace TransportPlanner.Web.Tests.Architecture;

public sealed class EndpointTests(PlannerApplication application) : IClassFixture<PlannerApplication>
{
    // The framework's validation skips a type that is not public: its ranges would be ignored without a word.
    // Seen to fail: with an internal record as body and another one inside it, it named both.
    [Fact]
    public void Request_types_and_the_types_in_them_are_public() =>
        Findings.None(
            from endpoint in application.Services.GetRequiredService<EndpointDataSource>().Endpoints
            let body = endpoint.Metadata.GetMetadata<IAcceptsMetadata>()?.RequestType
            where body is not null
            from type in WithParts(body, [])
            where !type.IsVisible
            select $"{endpoint.DisplayName} reads {type}, which is not public");

    private static IEnumerable<Type> WithParts(Type type, HashSet<Type> seen)
    {
        var inner = type.HasElementType ? [type.GetElementType()!] : type.GetGenericArguments();
        var own = type.Assembly == typeof(Program).Assembly && !type.IsEnum;
        var parts = own ? inner.Concat(type.GetProperties().Select(property => property.PropertyType)) : inner;
        return seen.Add(type) ? parts.SelectMany(part => WithParts(part, seen)).Append(type) : [];
    }
}
