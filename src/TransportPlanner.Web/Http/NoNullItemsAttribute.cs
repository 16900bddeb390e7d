using System.Collections;
using System.ComponentModel.DataAnnotations;

namespace TransportPlanner.Web.Http;

/// <summary>For a list in a request: the strict reader refuses a null member, but not a null inside a list.</summary>
[AttributeUsage(AttributeTargets.Property)]
internal sealed class NoNullItemsAttribute() : ValidationAttribute("Give a value for each item: null is not allowed in this list.")
{
    public override bool IsValid(object? value) => value is not IEnumerable items || items.Cast<object?>().All(item => item is not null);
}
